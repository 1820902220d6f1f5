/*
  Reads words and lengths out of a text, the same way for what is typed and for what is looked through.
  Sets window.handbookWords. `17.3mm`, `17.30 mm` and `0.681 in` are lengths; `520MH` and `520 h` are 520 and heavy.
*/
(function () {
  "use strict";
  var MM_PER_INCH = 25.4;
  var VULGAR = /[¼½¾⅛⅜⅝⅞]/g;
  var LENGTH = /(?:\b(\d{1,2})[ -])?\b(\d{1,2})\/(2|4|8|16|32|64)(?!\d)(?:[ -]?(?:inch(?:es)?\b|in\b|"))?|(?:\b(\d+(?:[.,]\d+)?)|\B([.,]\d+))[ -]?(mm\b|inch(?:es)?\b|in\b|")|\b(\d+[.,]\d+)\b|\B([.,]\d{2,})\b/g;
  var HYPHENED = /\p{L}+(?:-\p{L}+)+/gu;

  function plain(text) {
    if (!/[^\x00-\x7f]/.test(text)) { return text.toLowerCase().replace(/'/g, ""); }
    return text.replace(VULGAR, " $&").normalize("NFKD").toLowerCase().replace(/[\u0300-\u036f]/g, "")
      .replace(/×/g, "x").replace(/\u2044/g, "/").replace(/[\u201c\u201d\u2033]/g, '"').replace(/[\u2019']/g, "");
  }

  function readLength(whole, over, under, number, unit) {
    if (over) { return { mm: (Number(whole || 0) + over / under) * MM_PER_INCH, near: 0.05, fraction: true }; }
    var digits = number.replace(",", ".");
    var scale = (unit ? unit !== "mm" : isThou(digits)) ? MM_PER_INCH : 1;
    var places = (digits.split(".")[1] || "").length;
    return { mm: digits * scale, near: Math.max(0.5 * Math.pow(10, -places) * scale, 0.006) };
  }

  /* `.625` and `0.625` without a unit are inches: nobody reads thousandths of a millimetre below one */
  function isThou(digits) { return /^0?\.\d{3,}$/.test(digits) || digits[0] === "."; }

  function read(text) {
    var lengths = [];
    var rest = plain(text);
    if (/\d/.test(rest)) {
      rest = rest.replace(LENGTH, function (all, whole, over, under, number, pointed, unit, bare, short) {
        lengths.push(readLength(whole, over, under, number || pointed || bare || short, unit));
        return " | ";
      });
    }
    var words = [];
    var before = "a";
    (rest.match(/\p{L}+|\d+|\|/gu) || []).forEach(function (word) {
      if (word === "|") { before = "a"; return; }
      if (word[0] === "0") { word = word.replace(/^0+(?=\d)/, ""); }
      if (word === "mh" || (word === "h" && !isWord(before))) { word = "heavy"; }
      words.push(word);
      before = word;
    });
    return { words: words, lengths: lengths, joined: joinedOf(rest, words) };
  }

  /* `tin-14-inch` is a label, not a length */
  function readLabel(label) { return read(apart(label)); }

  function apart(label) { return label.replace(/-/g, " _ "); }

  /* `o-ring` and `o ring` are `oring` as well */
  function joinedOf(text, words) {
    var found = text.indexOf("-") < 0 ? [] : (text.match(HYPHENED) || []).map(function (word) { return word.replace(/-/g, ""); });
    words.forEach(function (word, i) {
      var next = words[i + 1] || "";
      if (word.length === 1 && word > "a" && word !== "i" && isWord(next)) { found.push(word + next); }
    });
    return found;
  }

  function stem(word) {
    if (word.length < 4 || !isWord(word)) { return word; }
    if (word.endsWith("s") && !word.endsWith("ss")) { word = word.slice(0, -1); }
    if (word.length >= 7 && word.endsWith("ing")) { word = word.slice(0, -3); }
    else if (word.length >= 6 && word.endsWith("ed")) { word = word.slice(0, -2); }
    return word.length >= 5 && word.endsWith("e") ? word.slice(0, -1) : word;
  }

  function isWord(word) { return word >= "a"; } // digits come before letters

  function oneOff(a, b) {
    var i = 0;
    if (Math.abs(a.length - b.length) > 1 || a === b) { return false; }
    while (i < a.length && a[i] === b[i]) { i += 1; }
    if (a.length < b.length) { return a.slice(i) === b.slice(i + 1); }
    if (a.length > b.length) { return a.slice(i + 1) === b.slice(i); }
    return a.slice(i + 1) === b.slice(i + 1) ||
      (a[i] === b[i + 1] && a[i + 1] === b[i] && a.slice(i + 2) === b.slice(i + 2));
  }

  window.handbookWords = { read: read, readLabel: readLabel, apart: apart, stem: stem, isWord: isWord, oneOff: oneOff };
})();
