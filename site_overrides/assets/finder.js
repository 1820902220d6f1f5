/*
  The two boxes of the start page: the first sorts the second by verdict, both together show the verdict at once and lead
  to its pair. Without this script the form leads to the grid of all chains and links.
*/
(function () {
  "use strict";
  var form = document.querySelector("[data-finder]");
  var answer = form.querySelector(".finder__answer");
  var ready = document.getElementById("finder-answers").content;
  var data = JSON.parse(document.getElementById("finder-data").textContent);
  var on = form.elements.on;
  var bag = form.elements.link;
  var bySize = Array.from(bag.children);
  var lines = new Map(Array.from(bag.querySelectorAll("option")).map(function (option) { return [option.value, option]; }));

  /* what stands between the two; null while one is not chosen */
  function found(link) {
    var of = data.on[on.value];
    if (!of || !link) { return null; }
    var place = parseInt(of[1].charAt(data.links.indexOf(link)), 36);
    var folder = form.getAttribute("data-root") + of[0] + "/";
    var panel = (of[2] || {})[link];
    var own = place % 2 ? folder + link + "/index.html" + (panel ? "#" + panel : "") : folder + "index.html#" + link;
    return { word: data.words[place >> 1], to: own };
  }

  function heading(word) {
    return ready.querySelector("[data-word=" + word + "] .word").textContent;
  }

  /* the links that go come first; what is chosen stays chosen */
  function sort() {
    var chosen = bag.value;
    var groups = data.words.map(function (word) {
      var group = document.createElement("optgroup");
      group.label = heading(word);
      data.links.forEach(function (link) {
        if (found(link).word === word) { group.append(lines.get(link)); }
      });
      return group;
    });
    bag.replaceChildren.apply(bag, [lines.get("")].concat(groups.filter(function (group) { return group.children.length; })));
    bag.value = chosen;
  }

  function unsort() {
    bySize.forEach(function (group) { bag.append(group); });
  }

  function show() {
    var pair = found(bag.value);
    answer.replaceChildren();
    if (!pair) { return; }
    var panel = ready.querySelector("[data-word=" + pair.word + "]").cloneNode(true);
    panel.href = pair.to;
    panel.querySelector(".says").prepend(bag.value + " on " + on.value + ": ");
    answer.append(panel);
  }

  on.addEventListener("change", function () {
    if (data.on[on.value]) { sort(); } else { unsort(); }
    show();
  });
  bag.addEventListener("change", show);
  form.addEventListener("submit", function (event) {
    var pair = found(bag.value);
    if (!pair) { return; }
    event.preventDefault();
    location.href = pair.to;
  });
  if (on.value) { sort(); show(); } // a browser that comes back keeps what was chosen
})();
