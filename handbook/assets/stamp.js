(function () {
  "use strict";
  var form = document.getElementById("stamp-form");
  var field = document.getElementById("stamp-text");
  var answer = document.getElementById("stamp-answer");
  var stamps = window.currentStamps;
  if (!form || !stamps) { return; }
  // The foot of a sheet says "job · stamp letters · side …"; its code says "job letters"; some type the letters alone.
  function readAs(text) {
    var words = text.toLowerCase().split(/[\s\u00b7,;]+/).filter(Boolean);
    var told = words.indexOf("stamp");
    var found = words.filter(function (word, at) {
      return /^[0-9a-f]{8}$/.test(word) && (told < 0 || at > told);
    });
    // Without the word, the stamp stands last: a job may be named with such letters too.
    var stamp = told < 0 ? found[found.length - 1] : found[0];
    var job = words[0] === "stamp" || words[0] === stamp && words.indexOf(stamp, 1) < 0 ? "" : words[0];
    return { job: job, stamp: stamp };
  }
  function known(job) { return Object.prototype.hasOwnProperty.call(stamps, job); }
  function answered(text) {
    var read = readAs(text), job = read.job;
    if (!read.stamp) {
      return "Not a stamp: write the job and the eight characters of the stamp, as at the foot of the sheet.";
    }
    if (!job) {
      job = Object.keys(stamps).filter(function (name) { return stamps[name].stamp === read.stamp; })[0];
      if (!job) {
        return "Unknown stamp: no sheet of today carries it. Keep the paper, do not work from it, and look it up again " +
          "with its job: a finished job keeps its paper.";
      }
    }
    if (!known(job)) {
      return "Unknown job: " + job + " is not in this handbook. Keep the paper, and ask before you work from it.";
    }
    var current = stamps[job].stamp === read.stamp;
    if (stamps[job].finished) {
      return "Finished: keep this paper. " + (current
        ? "Its stamp is the latest of " + job + "."
        : "Records of " + job + " have changed since it was printed; the paper says what was worked from.");
    }
    return current
      ? "Current: this is the latest sheet of " + job + "."
      : "Outdated: print the sheet of " + job + " again, and do not work from this one. Was it worked from already? " +
        "Then keep it; else throw it away.";
  }
  form.hidden = false;
  form.addEventListener("submit", function (event) {
    event.preventDefault();
    answer.textContent = answered(field.value);
  });
}());
