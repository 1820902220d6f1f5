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

  function remember(name, value) {
    try { localStorage.setItem("handbook." + name, value); } catch (blocked) { /* it holds for this page only */ }
  }

  function make(tag, attributes, children) {
    var element = document.createElement(tag);
    Object.keys(attributes).forEach(function (name) { element.setAttribute(name, attributes[name]); });
    element.append.apply(element, children || []);
    return element;
  }

  function switchNamed(name, children) {
    return make("button", { type: "button", "class": "switch", "data-switch": name }, children);
  }

  var menu = document.querySelector(".top__menu");
  var form = document.querySelector("form[role=search]");
  var results = make("div", { "class": "search__results", id: "handbook-search-results", role: "region", "aria-label": "Search results", hidden: "" });

  if (menu) {
    menu.before(
      switchNamed("units", [
        make("span", { "class": "switch__mm" }, ["mm"]), make("span", { "class": "switch__in" }, ["in"]),
        make("span", { "class": "unseen" }, [", show inches"])
      ]),
      switchNamed("scheme", [
        make("span", { "class": "switch__sun", "aria-hidden": "true" }),
        make("span", { "class": "unseen", "data-scheme-says": "" }, ["Colours: as the device"])
      ])
    );
  }
  if (form) {
    form.append(
      make("label", { "class": "unseen", "for": "handbook-search" }, ["Search the handbook"]),
      make("input", {
        "class": "search__field", id: "handbook-search", type: "search", name: "q", autocomplete: "off", spellcheck: "false",
        placeholder: "Bag label, size code, 5/8 in, word", "aria-controls": "handbook-search-results"
      })
    );
    form.after(results);
  }

  function button(name, press) {
    var found = document.querySelector("button[data-switch=" + name + "]");
    if (found) { found.addEventListener("click", press); }
    return found;
  }

  function showUnits() {
    if (units) { units.setAttribute("aria-pressed", String(root.classList.contains("units-in"))); }
  }

  function showScheme() {
    var says = document.querySelector("[data-scheme-says]");
    if (says) { says.textContent = "Colours: " + words[root.getAttribute("data-scheme") || "auto"]; }
  }

  var units = button("units", function () {
    var inch = root.classList.toggle("units-in");
    root.classList.toggle("units-mm", !inch);
    remember("units", inch ? "in" : "mm");
    showUnits();
  });

  button("scheme", function () {
    var now = root.getAttribute("data-scheme") || "auto";
    var next = schemes[(schemes.indexOf(now) + 1) % schemes.length];
    if (next === "auto") { root.removeAttribute("data-scheme"); } else { root.setAttribute("data-scheme", next); }
    remember("scheme", next);
    showScheme();
  });

  function loadScript(name) {
    var script = document.createElement("script");
    script.src = form.getAttribute("data-root") + "assets/" + name + ".js";
    script.async = false; // each needs the one before
    return document.head.appendChild(script);
  }

  if (form && document.getElementById("filter")) { loadScript("filter"); }

  /* the search comes with its index when somebody first touches the field */
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

  if (form) {
    form.addEventListener("submit", function (event) { event.preventDefault(); });
    form.addEventListener("focusin", loadSearch);
    if (form.contains(document.activeElement)) { loadSearch(); }
  }

  /* a table wider than its place says so; measured all at once, then written */
  if (window.ResizeObserver) {
    var tables = new ResizeObserver(function (seen) {
      seen.map(function (entry) { return [entry.target, entry.target.scrollWidth > entry.target.clientWidth + 1]; })
        .forEach(function (found) { found[0].classList.toggle("wide--more", found[1]); });
    });
    document.querySelectorAll(".wide").forEach(function (wide) { tables.observe(wide); });
  }

  showUnits();
  showScheme();
})();
