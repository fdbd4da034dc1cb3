(function () {
  "use strict";
  var form = document.getElementById("stamp-form");
  var field = document.getElementById("stamp-text");
  var answer = document.getElementById("stamp-answer");
  var stamps = window.currentStamps;
  if (!form || !stamps) { return; }
  // Of an archive the stamps are in parts beside this script; `_part_of` says in which one a name or a stamp is.
  var here = document.currentScript.src, loaded = {}, asked = 0;
  function partOf(text) {
    var number = 0;
    for (var at = 0; at < text.length; at += 1) {
      var sign = text.charCodeAt(at);
      number = ((number * 31 + sign % 256) % 65521 * 31 + (sign >> 8)) % 65521;
    }
    return number % window.stampParts;
  }
  function withPartsOf(texts, then) {
    var missing = (window.stampParts ? texts.filter(Boolean).map(partOf) : []).filter(function (part) {
      return !loaded[part];
    })[0];
    if (missing === undefined) { then(); return; }
    var script = document.createElement("script");
    script.src = here.replace(/stamp\.js(?=$|[?#])/, "stamps-" + missing + ".js");
    script.onload = function () { loaded[missing] = true; withPartsOf(texts, then); };
    script.onerror = function () {
      answer.textContent = "Not looked up: a file of the handbook could not be read. Keep the paper, and ask before " +
        "you work from it.";
    };
    document.head.appendChild(script);
  }
  // The foot of a sheet says "job · stamp letters · side …"; its code says "job letters"; some type the letters alone.
  // The edge of any other print says "studio · page · stamp letters · as of …": the name stands before the word.
  function readAs(text) {
    var words = text.toLowerCase().split(/[\s\u00b7,;]+/).filter(Boolean);
    var told = words.reduce(function (last, word, at) {
      return word === "stamp" && /^[0-9a-f]{8}$/.test(words[at + 1] || "") && last < 0 ? at : last;
    }, -1);
    var found = words.filter(function (word, at) {
      return /^[0-9a-f]{8}$/.test(word) && (told < 0 || at > told);
    });
    // Without the word, the stamp stands last: a job may be named with such letters too.
    var stamp = told < 0 ? found[found.length - 1] : found[0];
    var first = words[0] === stamp && words.indexOf(stamp, 1) < 0 ? "" : words[0];
    return { job: told < 0 ? first : words[told - 1] || "", stamp: stamp };
  }
  function known(job) { return Object.prototype.hasOwnProperty.call(stamps, job); }
  // What was worked with is known where the values are kept and somebody looked at the stamp on the paper.
  function finished(job, stamp) {
    var of = stamps[job];
    if (!of.kept) {
      return "What " + job + " was worked with is not kept, so nobody can say whether it was this sheet.";
    }
    if (of.paper && of.paper === stamp) {
      return job + " was worked with this sheet." + (of.paper === of.stamp ? "" :
        " It says other things than the sheet that is kept; the paper counts.");
    }
    if (of.stamp === stamp) {
      return of.paper
        ? job + " was worked with another one, with stamp " + of.paper + "; look for it."
        : "It is the sheet that is kept of " + job + "; nobody looked at the paper that was worked with.";
    }
    return "It carries another stamp than the sheet that is kept of " + job + "; the paper says what was worked with.";
  }
  function answered(text) {
    var read = readAs(text), job = read.job;
    if (!read.stamp) {
      return "Not a stamp: write the job or the page and the eight characters of the stamp, as they are printed.";
    }
    if (!job) {
      job = Object.keys(stamps).filter(function (name) {
        return stamps[name].stamp === read.stamp || stamps[name].paper === read.stamp;
      })[0];
      if (!job) {
        return "Unknown stamp: nothing of today carries it. Keep the paper, do not work from it, and look it up again with " +
          "its job or its page: a finished job keeps its paper.";
      }
    }
    // An address may have capital letters; what is typed or scanned need not have them.
    job = Object.keys(stamps).filter(function (name) { return name.toLowerCase() === job.toLowerCase(); })[0] || job;
    var page = /\.html$/.test(job);
    if (!known(job)) {
      return page
        ? "Unknown page: " + job + " is not in this handbook. Take it down."
        : "Unknown job: " + job + " is not in this handbook. Keep the paper, and ask before you work from it.";
    }
    var current = stamps[job].stamp === read.stamp;
    if (stamps[job].finished) {
      return "Finished: keep this paper. " + finished(job, read.stamp);
    }
    if (stamps[job].not_worked) {
      return "Not worked, " + stamps[job].not_worked + ": work from no paper of " + job + ". Was one worked from already? " +
        "Then keep it, and mend the job; else throw it away.";
    }
    if (current) {
      return "Current: this is the latest " + (page ? "print" : "sheet") + " of " + job + ".";
    }
    return page
      ? "Outdated: take this print of " + job + " down, and print the page again."
      : "Outdated: print the sheet of " + job + " again, and do not work from this one. Was it worked from already? " +
        "Then keep it; else throw it away.";
  }
  form.hidden = false;
  form.addEventListener("submit", function (event) {
    event.preventDefault();
    var text = field.value, read = readAs(text), mine = asked += 1;
    withPartsOf([read.stamp && read.job, read.stamp], function () {
      if (mine === asked) { answer.textContent = answered(text); }
    });
  });
}());
