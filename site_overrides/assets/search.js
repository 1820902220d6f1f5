/* The list under the search field: links, best first. Loaded with its index when somebody first touches the field. */
(function () {
  "use strict";
  var MOST = 10;
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

  function item(found) {
    var link = make("a", "");
    link.href = address(found.path);
    link.append(make("b", "", found.title), " ", make("span", "kind", found.kind), " ", make("span", "says", found.says));
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
    if (event.key === "Escape") {
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
