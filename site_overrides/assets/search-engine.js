/*
  Ranks the pages of the handbook for what somebody typed. Reads window.handbookIndex once, sets window.handbookSearch.
  A word may be exact, another form of it, begun or one letter off; a length is compared as a length, whatever its unit.
  tests/search/reckoned.py does the same a second time, plainly; the two are held against each other.
*/
(function () {
  "use strict";
  var index = window.handbookIndex;
  var read = window.handbookWords.read;
  var readLabel = window.handbookWords.readLabel;
  var stem = window.handbookWords.stem;
  var isWord = window.handbookWords.isWord;
  var oneOff = window.handbookWords.oneOff;
  // each: path, title, kind, says, favour, labels, phrases, lengths (field and micrometres in turn), words
  var docs = index.docs;
  var stop = new Set(index.stop.split(" "));
  var WEIGHT = { label: 10, title: 6, phrase: 6, kind: 6, words: 3.5, says: 3, field: 5, length: 6 };
  var WHOLE = { label: 2, title: 1.6, phrase: 1.5 }; // what it adds when all of a name is typed
  var LONGEST_NAME = 40;
  var LENGTH_RARITY = 4;
  var MOST_PAIRS = 3;
  var SIZE = "size code";
  var CODE = "problem code";

  /* ---- the index in the form that ranking wants: word -> [doc, weight, doc, weight, ...] ---- */
  var places = new Map();
  var readBefore = new Map(); // kinds and names come again and again
  var posing = []; // labels that look as if a length were in them

  function readOnce(text) {
    if (!readBefore.has(text)) { readBefore.set(text, read(text)); }
    return readBefore.get(text);
  }

  function meant(words) {
    var found = words.filter(function (word) { return !stop.has(word); });
    return Array.from(new Set((found.length ? found : words).map(stem)));
  }

  function addDoc(row, doc) {
    var best = new Map();
    var names = [];
    function add(text, weight, worth) {
      if (text) { keep(readOnce(text), text, weight, worth); }
    }
    function keep(found, text, weight, worth) {
      found.words.concat(found.joined).forEach(function (word) {
        if (weight > (best.get(word) || 0)) { best.set(word, weight); }
      });
      if (worth > 0 && found.words.length && text.length < LONGEST_NAME) { names.push({ words: meant(found.words), worth: worth }); }
    }
    row[5].forEach(function (label) {
      keep(readLabel(label), label, WEIGHT.label, WHOLE.label);
      if (/^[\w-]+$/.test(label) && read(label).lengths.length) { posing.push(label); }
    });
    add(row[1], WEIGHT.title, WHOLE.title);
    row[6].forEach(function (phrase, i) { add(phrase, Math.max(WEIGHT.phrase - i / 6, 3), WHOLE.phrase - i / 30); });
    add(index.kinds[row[2]], WEIGHT.kind, 0);
    add(row[3], WEIGHT.says, 0);
    add(row[8], WEIGHT.words, 0);
    best.forEach(function (weight, word) {
      if (places.has(word)) { places.get(word).push(doc, weight); } else { places.set(word, [doc, weight]); }
    });
    return names;
  }

  var fields = index.fields.map(function (words) { return new Set(read(words).words.map(stem)); });
  var namesOf = docs.map(addDoc);
  var vocabulary = Array.from(places.keys());
  var stems = vocabulary.map(stem);
  var forms = new Map(); // stem -> words
  vocabulary.forEach(function (word, i) {
    if (forms.has(stems[i])) { forms.get(stems[i]).push(word); } else { forms.set(stems[i], [word]); }
  });

  /* ---- one typed word: the words of the index it may stand for, each with how surely ---- */
  function joined(a, b) { return isWord(a) && isWord(b) ? forms.get(stem(a + b)) || [] : []; }

  function readings(typed, k) {
    var word = typed[k];
    var sure = new Map();
    function may(other, how) { if (how > (sure.get(other) || 0)) { sure.set(other, how); } }
    if (places.has(word)) { may(word, 1); }
    (forms.get(stem(word)) || []).forEach(function (other) { may(other, 0.9); });
    var known = sure.size > 0;
    if (word.length > 1 && (isWord(word) || k === typed.length - 1)) {
      vocabulary.forEach(function (other) {
        if (other.startsWith(word) && isWord(other) === isWord(word)) { may(other, 0.6 * word.length / other.length + 0.1); }
      });
    }
    if (!known && isWord(word) && word.length > 2) {
      var short = stem(word);
      vocabulary.forEach(function (other, i) {
        if (isWord(other) && !sure.has(other) && (oneOff(word, other) || (short.length > 3 && oneOff(short, stems[i])))) { may(other, 0.6); }
      });
    }
    if (k > 0) { joined(typed[k - 1], word).forEach(function (other) { may(other, 0.95); }); }
    if (k + 1 < typed.length) { joined(word, typed[k + 1]).forEach(function (other) { may(other, 0.95); }); }
    return sure;
  }

  /* doc -> the strongest place of the word in it */
  function placesOf(typed, k) {
    var best = new Map();
    readings(typed, k).forEach(function (how, word) {
      var list = places.get(word);
      for (var i = 0; i < list.length; i += 2) {
        var before = best.get(list[i]);
        if (!before || how * list[i + 1] > before.strength) {
          best.set(list[i], { strength: how * list[i + 1], word: word, how: how });
        }
      }
    });
    return best;
  }

  function rarity(count) { return Math.log(1 + docs.length / Math.max(count, 1)); }

  function takenApart(word) {
    if (!isWord(word) || word.length < 6 || places.has(word) || forms.has(stem(word))) { return [word]; }
    for (var i = 3; i <= word.length - 3; i += 1) {
      if (forms.has(stem(word.slice(0, i))) && forms.has(stem(word.slice(i)))) { return [word.slice(0, i), word.slice(i)]; }
    }
    return [word];
  }

  function typedWords(words, lengths) {
    var kept = words.filter(function (word, i) {
      if (!stop.has(word)) { return true; }
      var after = i + 1 < words.length && joined(word, words[i + 1]).length > 0;
      return word.length === 1 && ((i > 0 && !isWord(words[i - 1])) || after);
    });
    if (!kept.length && !lengths.length) { kept = words; }
    return [].concat.apply([], kept.map(takenApart)).slice(0, 12);
  }

  /* ---- lengths: near enough to what was typed, and better still if the words name the dimension ---- */
  function nearness(length, micrometres) {
    var off = Math.abs(micrometres / 1000 - length.mm);
    if (off <= length.near) { return 1 - 0.3 * off / length.near; }
    return off < length.near + 0.1 ? 0.4 * (1 - (off - length.near) / 0.1) : 0;
  }

  function bestLength(row, length, typed) { // typed: stems
    var best = null;
    for (var i = 0; i < row[7].length; i += 2) {
      var near = nearness(length, row[7][i + 1]);
      if (near > 0) {
        var named = typed.filter(function (word) { return fields[row[7][i]].has(word); });
        var worth = near * (1 + (typed.length ? named.length / typed.length : 0));
        if (length.fraction && index.kinds[row[2]] === SIZE) { worth *= 1.25; } // sizes are named in fractions
        if (!best || worth > best.worth) { best = { worth: worth, near: near, named: named }; }
      }
    }
    return best;
  }

  /* ---- a chain or a bike and a link typed together: their pair ---- */
  var onWhat = Object.keys(index.pairs).sort();
  var wordsOfLabels = new Map();

  function wordsOf(label) {
    if (!wordsOfLabels.has(label)) { wordsOfLabels.set(label, readLabel(label).words); }
    return wordsOfLabels.get(label);
  }

  function taken(label, known, used) {
    var now = new Set(used);
    var all = wordsOf(label).every(function (word) {
      for (var i = 0; i < known.length; i += 1) {
        if (!now.has(i) && known[i].has(word)) { now.add(i); return true; }
      }
      return false;
    });
    return all ? now : null;
  }

  /* the same where only some words of the label are typed, as far as they go */
  function partly(label, known, used) {
    var now = new Set(used);
    wordsOf(label).forEach(function (word) {
      var at = known.findIndex(function (words, i) { return !now.has(i) && words.has(word); });
      if (at >= 0) { now.add(at); }
    });
    return now.size === known.length && now.size > used.size;
  }

  /* the label of a link and some of a chain's, nothing else typed: a pair where that leaves only a few */
  function begunPairs(known) {
    var found = [];
    var links = index.links.map(function (link) { return taken(link, known, new Set()); });
    if (!links.some(Boolean)) { return found; }
    onWhat.forEach(function (on) {
      if (index.pairs[on][0] !== on) { return; } // a bike has too short a label to be begun
      index.links.forEach(function (link, i) {
        if (links[i] && partly(on, known, links[i])) { found.push({ on: on, link: i, words: known.length }); }
      });
    });
    return found.length <= MOST_PAIRS ? found : [];
  }

  function pairsOf(known) {
    var found = [];
    onWhat.forEach(function (on) {
      var used = taken(on, known, new Set());
      if (!used) { return; }
      index.links.forEach(function (link, i) {
        var both = taken(link, known, used);
        if (both) { found.push({ on: on, link: i, words: both.size }); }
      });
    });
    found.sort(function (a, b) { return b.words - a.words; });
    return (found.length ? found.slice(0, MOST_PAIRS) : begunPairs(known)).map(shownPair);
  }

  function shownPair(pair) {
    var row = index.pairs[pair.on];
    var link = index.links[pair.link];
    var at = parseInt(row[1][pair.link], 36);
    var panel = row[2][link];
    return {
      path: "pairs/" + row[0] + (at % 2 ? "/" + link + "/" + (panel ? "#" + panel : "") : "/#" + link),
      title: link + " on " + pair.on,
      kind: "pair",
      says: index.says[at >> 1],
      verdict: index.verdicts[at >> 1]
    };
  }

  /* ---- all of it together ---- */
  function score(typed, stemmed, lengths) {
    var total = 0;
    var found = new Map(); // doc -> score, cover, words hit, words that name a length
    function of(doc) {
      if (!found.has(doc)) { found.set(doc, { score: 0, cover: 0, hit: new Set(), named: new Set() }); }
      return found.get(doc);
    }
    lengths.forEach(function (length) {
      total += LENGTH_RARITY;
      docs.forEach(function (row, doc) {
        var best = bestLength(row, length, stemmed);
        if (!best) { return; }
        var entry = of(doc);
        entry.score += LENGTH_RARITY * WEIGHT.length * best.worth;
        entry.cover += LENGTH_RARITY * Math.min(1, best.near + 0.3);
        best.named.forEach(function (word) { entry.named.add(word); });
      });
    });
    var known = typed.map(function (word, k) {
      var best = placesOf(typed, k);
      var count = 0;
      best.forEach(function (place) { count += place.how >= 0.6 ? 1 : 0; });
      var named = fields.some(function (words) { return words.has(stemmed[k]); });
      var rare = best.size ? rarity(count || best.size) : (named ? 2.5 : 0);
      total += rare;
      best.forEach(function (place, doc) { of(doc); });
      found.forEach(function (entry, doc) {
        var place = best.get(doc) || { strength: 0, how: 0, word: "" };
        var names = entry.named.has(stemmed[k]);
        if (!names && !place.word) { return; }
        entry.score += rare * (names ? Math.max(place.strength, WEIGHT.field) : place.strength);
        entry.cover += rare * (names ? 1 : Math.min(1, place.how + 0.2));
        if (place.word) { entry.hit.add(stem(place.word)).add(stemmed[k]); }
      });
      var words = new Set([word]);
      best.forEach(function (place) { if (place.how >= 0.6) { words.add(place.word); } });
      return words;
    });
    return { found: found, total: total, known: known };
  }

  function wholeOf(doc, hit, typed, count) {
    var best = 0;
    namesOf[doc].forEach(function (name) {
      if (!name.words.every(function (word) { return hit.has(word); })) { return; }
      var inOrder = typed.some(function (_, i) {
        return name.words.every(function (word, j) { return typed[i + j] === word; });
      });
      var share = Math.min(1, name.words.length / count);
      best = Math.max(best, (name.worth + (inOrder ? 0.5 : 0)) * share * share);
    });
    return best;
  }

  /* a label that is typed stays a label: `tin 14 inch` */
  function guarded(text) {
    return posing.reduce(function (now, label) {
      return now.replace(new RegExp("\\b" + label.replace(/-/g, "[ -]?") + "\\b", "i"), window.handbookWords.apart(label));
    }, text);
  }

  function find(text, most) {
    var asked = read(guarded(text.slice(0, 200)));
    var typed = typedWords(asked.words, asked.lengths);
    var stemmed = typed.map(stem);
    var scored = score(typed, stemmed, asked.lengths);
    var ranked = [];
    scored.found.forEach(function (entry, doc) {
      var cover = scored.total ? Math.min(1, entry.cover / scored.total) : 0;
      var whole = wholeOf(doc, entry.hit, stemmed, typed.length + asked.lengths.length);
      var last = index.kinds[docs[doc][2]] === CODE && whole < 1; // a code comes first only to those who type it
      ranked.push({ doc: doc, last: last, score: entry.score * cover * cover * cover * (1 + whole) * docs[doc][4] / 100 });
    });
    var least = ranked.reduce(function (most, entry) { return Math.max(most, entry.score); }, 0) / 30;
    ranked.sort(function (a, b) { return a.last - b.last || b.score - a.score || a.doc - b.doc; });
    var good = ranked.filter(function (entry) { return entry.score > least; });
    var pairs = pairsOf(scored.known);
    var list = pairs.concat(good.slice(0, (most || 12) - pairs.length).map(function (entry) {
      var row = docs[entry.doc];
      return { path: row[0], title: row[1], kind: index.kinds[row[2]], says: row[3] };
    }));
    return { list: list, count: pairs.length + good.length };
  }

  window.handbookSearch = { find: find };
})();
