/*
  Two switches that remember: mm or inch, light or dark. Without this script both units are shown.
  And the search, which is loaded when it is first wanted. Switches and field work by this script only, so it also
  makes them: no page carries what it cannot use.
*/
(function () {
  "use strict";
  var root = document.documentElement;
  var schemes = ["auto", "light", "dark"];
  var words = { auto: "as the device", light: "light", dark: "dark" };
  var form = document.querySelector("form[role=search]");
  var find = document.querySelector("[data-find]");

  function remember(name, value) {
    try { localStorage.setItem("handbook." + name, value); } catch (blocked) { /* it holds for this page only */ }
  }

  function make(tag, attributes, children) {
    var element = document.createElement(tag);
    Object.keys(attributes).forEach(function (name) { element.setAttribute(name, attributes[name]); });
    element.append.apply(element, children || []);
    return element;
  }

  function switchNamed(name, children, press) {
    var made = make("button", { type: "button", "class": "switch", "data-switch": name }, children);
    made.addEventListener("click", press);
    return made;
  }

  var says = make("span", { "class": "unseen" });
  var units = switchNamed("units", [
    make("span", { "class": "switch__mm" }, ["mm"]), make("span", { "class": "switch__in" }, ["in"]),
    make("span", { "class": "unseen" }, [", show inches"])
  ], function () {
    var inch = root.classList.toggle("units-in");
    root.classList.toggle("units-mm", !inch);
    remember("units", inch ? "in" : "mm");
    show();
  });
  var scheme = switchNamed("scheme", [make("span", { "class": "switch__sun", "aria-hidden": "true" }), says], function () {
    var now = root.getAttribute("data-scheme") || "auto";
    var next = schemes[(schemes.indexOf(now) + 1) % schemes.length];
    if (next === "auto") { root.removeAttribute("data-scheme"); } else { root.setAttribute("data-scheme", next); }
    remember("scheme", next);
    show();
  });

  function show() {
    units.setAttribute("aria-pressed", String(root.classList.contains("units-in")));
    says.textContent = "Colours: " + words[root.getAttribute("data-scheme") || "auto"];
  }

  document.querySelector(".bar__switches").append(units, scheme);
  show();

  /* ---- the search comes with its index when somebody first touches the field ---- */
  var results = make("div", { "class": "find__results", id: "handbook-search-results", role: "region", "aria-label": "Search results", hidden: "" });
  var field = make("input", {
    "class": "find__field", id: "handbook-search", type: "search", name: "q", autocomplete: "off", spellcheck: "false",
    placeholder: "Bag label, bike, size, 5/8 in, word", "aria-controls": "handbook-search-results"
  });
  var close = make("button", { type: "button", "class": "switch find__close" }, ["Close"]);
  form.append(
    make("label", { "class": "unseen", "for": "handbook-search" }, ["Search the handbook"]),
    make("div", { "class": "find__top" }, [close, field]), results
  );

  function loadScript(name) {
    var script = document.createElement("script");
    script.src = form.getAttribute("data-root") + "assets/" + name + ".js";
    script.async = false; // each needs the one before
    return document.head.appendChild(script);
  }

  if (document.querySelector("[data-finder]")) { loadScript("finder"); }

  var asked = false;

  function loadSearch() {
    if (asked) { return; }
    asked = true;
    ["search-index", "search-words", "search-engine", "search"].forEach(function (name) {
      loadScript(name).onerror = function () {
        results.hidden = false;
        results.textContent = "The search did not load. The menu lists all pages.";
      };
    });
  }

  /* on a phone the field is a sheet of its own */
  function sheet(open) {
    root.classList.toggle("finding", open);
    (open ? field : find).focus();
  }

  find.addEventListener("click", function (event) { event.preventDefault(); sheet(true); });
  close.addEventListener("click", function () { sheet(false); });
  form.addEventListener("keydown", function (event) {
    if (event.key === "Escape" && root.classList.contains("finding")) { sheet(false); }
  });
  form.addEventListener("submit", function (event) { event.preventDefault(); });
  form.addEventListener("focusin", loadSearch);
  results.addEventListener("click", function () { root.classList.remove("finding"); }); // the place may be on this page
  if (form.contains(document.activeElement)) { loadSearch(); }
})();
