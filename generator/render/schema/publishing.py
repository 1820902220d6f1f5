"""How a finished handbook gets to its readers, as a text beside the club's data."""

PUBLISHING = """\
# Getting the handbook to its readers

`handbook build --club . --to ../site` writes the whole handbook into one folder. It is plain files: no
database, no program on the server, no request to any other host. Build again and copy the folder again
whenever the data change. What you add to the folder (a `.git`, a `CNAME`, `_headers`) stays through every build;
the file `.handbook-site` in it lists what a build made.

Before you publish, run `handbook check --club .` and mend what it names. Everything in the data files can be
read by anybody who can open the handbook: write roles, not names, and no addresses of sheds.

## On a memory stick or a phone
Copy the folder. Open `index.html` in a browser. Search and drawings work without a network.

## On web space
Copy the contents of the folder to the place your web space shows, by whatever the host offers (an upload page,
SFTP, rsync). The handbook works at the top of a site and in any folder below it. Set `HANDBOOK_SITE_URL` to
the address before you build, and printed sheets and the list for search engines show it:

    HANDBOOK_SITE_URL=https://example.org/chains/ handbook build --club . --to ../site

Copy to a new folder first and rename it when the copy is complete, so that no reader meets half a handbook.

## On a page host fed from a repository
Let the host run the build command above and publish the folder it writes, or put the built folder into the branch
it publishes. Names that begin with a point must not be left out.

## Headers
Each page carries its own content policy. One thing a page cannot say about itself: that no other site may show
it in a frame. The server has to say that. Pick the form your server reads.

Web space that reads `.htaccess` files - a file of that name beside `index.html`:

    Header set Content-Security-Policy "frame-ancestors 'none'"
    Header set X-Content-Type-Options "nosniff"
    Header set Referrer-Policy "no-referrer"

Hosts that read a file `_headers` beside `index.html`:

    /*
      Content-Security-Policy: frame-ancestors 'none'
      X-Content-Type-Options: nosniff
      Referrer-Policy: no-referrer

A server whose configuration has `add_header` lines, in its `location` block:

    add_header Content-Security-Policy "frame-ancestors 'none'" always;
    add_header X-Content-Type-Options "nosniff" always;
    add_header Referrer-Policy "no-referrer" always;

To check: `curl -sI https://example.org/chains/ | grep -i frame-ancestors`.

## Going back
Keep the last built folder under another name until riders have used the new one. To go back, rename.
"""
