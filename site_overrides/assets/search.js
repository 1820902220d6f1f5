/* The list under the search field: links, best first. Loaded with its index when somebody first touches the field. */
(function () {
  "use strict";
  var MOST = 10;
  /* the outlines of handbook/shapes.html, which no page carries unless it shows them */
  var SHAPES = {
    "proper": ["M6.5 5q2.7 0 4.3 1.7q1.2.6 2.4 0Q14.8 5 17.5 5a7 7 0 0 1 0 14q-2.7 0-4.3-1.7q-1.2-.6-2.4 0Q9.2 19 6.5 19a7 7 0 0 1 0-14zM6.5 9a3 3 0 0 0 0 6a3 3 0 0 0 0-6zM17.5 9a3 3 0 0 0 0 6a3 3 0 0 0 0-6z"],
    "get-home": ["M12 2L23 12.3H20V22H4V12.3H1zM9.5 14.5V22H14.5V14.5z"],
    "last-resort": ["M1 3H23L12 22.5z"],
    "no-go": ["M7.5 1h9L23 7.5v9L16.5 23h-9L1 16.5v-9zM4.5 9.5v5h15v-5z"],
    "measure-first": ["M1 2h9v4H5.5v15H1zM23 2h-9v4h4.5v15H23zM8 13.5h8v3.5H8z"],
    "cannot-judge": ["M1 12Q12 0 23 12Q12 24 1 12zM3.6 12Q12 20.4 20.4 12Q12 3.6 3.6 12z", "M12 8.4a3.6 3.6 0 1 0 .01 0z"]
  };
  var NOTHING = "Nothing found. Try the label on the bag, a size code, or a length with its unit.";
  var form = document.querySelector("form[role=search]");
  var field = document.getElementById("handbook-search");
  var box = document.getElementById("handbook-search-results");
  var heard = make("p", "unseen"); // outside the box, so that it is already there when it changes
  var count = make("p", "find__count");
  var list = make("ol", "find__list");

  function make(tag, name, text) {
    var element = document.createElement(tag);
    element.className = name;
    if (text) { element.textContent = text; }
    return element;
  }

  /* a folder on disk has no index pages */
  function address(path) {
    return form.getAttribute("data-root") + path.replace(/(^|\/)(#|$)/, "$1index.html$2");
  }

  function drawn(tag, name, value) {
    var element = document.createElementNS("http://www.w3.org/2000/svg", tag);
    element.setAttribute(name, value);
    return element;
  }

  /* a plate as on the pages: shape, word, ink */
  function plate(word, says) {
    var made = make("span", "plate mini v-" + word);
    var shape = drawn("svg", "class", "shape");
    shape.setAttribute("viewBox", "0 0 24 24");
    shape.setAttribute("aria-hidden", "true");
    SHAPES[word].forEach(function (way) {
      var path = shape.appendChild(drawn("path", "d", way));
      path.setAttribute("fill", "currentColor");
      path.setAttribute("fill-rule", "evenodd");
    });
    made.append(shape, make("span", "word", says.split(/[,:]/)[0]));
    return made;
  }

  function item(found) {
    var link = make("a", "");
    link.href = address(found.path);
    link.append(make("b", "", found.title), " ",
      found.verdict ? plate(found.verdict, found.says) : make("span", "kind", found.kind));
    var says = found.verdict ? found.says.replace(/^[^,:]*[,:]?\s*/, "") : found.says; // the plate has the word already
    if (says) { link.append(" ", make("span", "says", says)); }
    var line = make("li", "");
    line.append(link);
    return line;
  }

  function say(text) {
    heard.textContent = text;
    count.textContent = text;
  }

  function counted(found) {
    if (!found.count) { return NOTHING; }
    return found.count > found.list.length ? "First " + found.list.length + " of " + found.count : found.count + " found";
  }

  function show() {
    var text = field.value.trim();
    box.hidden = !text;
    if (!text) { say(""); list.replaceChildren(); return; }
    var found = window.handbookSearch.find(text, MOST);
    list.replaceChildren.apply(list, found.list.map(item));
    say(counted(found));
  }

  function close() {
    box.hidden = true;
    heard.textContent = "";
  }

  function links() { return Array.from(list.querySelectorAll("a")); }

  function step(event) {
    var all = links();
    var at = all.indexOf(document.activeElement);
    var to = { ArrowDown: at + 1, ArrowUp: at - 1, Home: at < 0 ? NaN : 0, End: at < 0 ? NaN : all.length - 1 }[event.key];
    if (event.key === "Escape" && !box.hidden) {
      event.stopPropagation(); // the next one closes the sheet of a phone
      field.focus(); // which opens the list
      close();
    } else if (to === -1 && at === 0) {
      event.preventDefault();
      field.focus();
    } else if (all[to] && !box.hidden) {
      event.preventDefault();
      all[to].focus();
    }
  }

  heard.setAttribute("role", "status");
  count.setAttribute("aria-hidden", "true");
  form.append(heard);
  box.append(count, list);
  field.addEventListener("input", show);
  field.addEventListener("focus", function () { if (field.value && box.hidden) { show(); } });
  field.addEventListener("keydown", step);
  list.addEventListener("keydown", step);
  list.addEventListener("click", close); // the place may be on this very page
  form.addEventListener("submit", function () {
    show();
    var first = links()[0];
    if (first) { first.click(); }
  });
  if (field.value) { show(); }
})();
