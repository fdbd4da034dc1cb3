(function () {
  "use strict";
  var form = document.getElementById("stamp-form");
  var field = document.getElementById("stamp-text");
  var answer = document.getElementById("stamp-answer");
  var stamps = window.currentStamps;
  if (!form || !stamps) { return; }
  function answered(text) {
    var words = text.trim().toLowerCase().split(/\s+/);
    if (words.length !== 2 || !/^[0-9a-f]{8}$/.test(words[1])) {
      return "Not a stamp: write the job, a space, and the eight characters of the stamp.";
    }
    if (!Object.prototype.hasOwnProperty.call(stamps, words[0])) {
      return "Unknown job: " + words[0] + " is not in this handbook. Ask before you work from this sheet.";
    }
    return stamps[words[0]] === words[1]
      ? "Current: this is the latest sheet of " + words[0] + "."
      : "Outdated: print the sheet of " + words[0] + " again, and throw this one away.";
  }
  form.hidden = false;
  form.addEventListener("submit", function (event) {
    event.preventDefault();
    answer.textContent = answered(field.value);
  });
}());
