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
  function answered(text) {
    var read = readAs(text), job = read.job;
    if (!read.stamp) {
      return "Not a stamp: write the job and the eight characters of the stamp, as at the foot of the sheet.";
    }
    if (!job) {
      job = Object.keys(stamps).filter(function (name) { return stamps[name] === read.stamp; })[0];
      if (!job) {
        return "Not current: no sheet of today carries this stamp. Print its sheet again, and throw this one away.";
      }
    }
    if (!Object.prototype.hasOwnProperty.call(stamps, job)) {
      return "Unknown job: " + job + " is not in this handbook. Ask before you work from this sheet.";
    }
    return stamps[job] === read.stamp
      ? "Current: this is the latest sheet of " + job + "."
      : "Outdated: print the sheet of " + job + " again, and throw this one away.";
  }
  form.hidden = false;
  form.addEventListener("submit", function (event) {
    event.preventDefault();
    answer.textContent = answered(field.value);
  });
}());
