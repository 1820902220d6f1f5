/*
  Shows some rows of the table of all pairs: by chain, by verdict, by words. What is chosen stands in the address, so that
  it can be sent to somebody; as its fragment, since that alone may change for a folder on disk. Without this script the
  whole table is there and no controls.
*/
(function () {
  "use strict";
  var form = document.getElementById("filter");
  var count = form.querySelector("[role=status]");
  var fields = ["chain", "word", "text"].map(function (name) { return form.elements[name]; });
  var words = Array.from(form.elements.word.options).map(function (option) { return option.value; }).filter(Boolean);
  var rows = Array.from(document.querySelectorAll("#all-pairs tbody tr")).map(function (row) {
    var verdict = row.querySelector(".verdict");
    return {
      row: row,
      chain: row.cells[2].textContent.trim(),
      word: words.find(function (word) { return verdict.classList.contains(word); }),
      text: row.textContent.toLowerCase()
    };
  });

  function fits(row, wanted, typed) {
    return (!wanted.chain || row.chain === wanted.chain) && (!wanted.word || row.word === wanted.word) &&
      typed.every(function (word) { return row.text.indexOf(word) >= 0; });
  }

  function show() {
    var wanted = {};
    fields.forEach(function (field) { wanted[field.name] = field.value; });
    var typed = wanted.text.toLowerCase().split(/\s+/).filter(Boolean);
    var shown = 0;
    rows.forEach(function (row) {
      row.row.hidden = !fits(row, wanted, typed);
      shown += row.row.hidden ? 0 : 1;
    });
    count.textContent = shown + " of " + rows.length + " pairs";
  }

  function remember() {
    var chosen = new URLSearchParams();
    fields.forEach(function (field) { if (field.value.trim()) { chosen.set(field.name, field.value.trim()); } });
    var text = chosen.toString();
    history.replaceState(null, "", "#" + (text || "every-pair"));
  }

  /* an anchor of the page has no equals sign in it */
  function recall() {
    if (location.hash.indexOf("=") < 0) { return; }
    var chosen = new URLSearchParams(location.hash.slice(1));
    fields.forEach(function (field) {
      field.value = chosen.get(field.name) || "";
      if (field.selectedIndex < 0) { field.value = ""; } // a chain that is not there any more
    });
    show();
    form.scrollIntoView();
  }

  form.addEventListener("input", function () { show(); remember(); });
  form.addEventListener("submit", function (event) { event.preventDefault(); });
  form.addEventListener("reset", function (event) {
    event.preventDefault();
    fields.forEach(function (field) { field.value = ""; });
    show();
    remember();
  });
  window.addEventListener("hashchange", recall);
  show(); // a browser that comes back keeps what was typed
  recall();
})();
