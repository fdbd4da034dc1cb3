(function () {
  "use strict";
  var form = document.getElementById("older-form");
  var field = document.getElementById("older-text");
  var said = document.getElementById("older-said");
  var found = document.getElementById("older-found");
  var jobs = window.olderJobs;
  if (!form || !jobs) { return; }
  var MOST = 30;
  var texts = jobs.map(function (job) { return job.join(" ").toLowerCase(); });
  function look() {
    var words = field.value.toLowerCase().split(/\s+/).filter(Boolean);
    var hits = [];
    texts.forEach(function (text, at) {
      if (words.length && words.every(function (word) { return text.indexOf(word) >= 0; })) { hits.push(jobs[at]); }
    });
    found.textContent = "";
    hits.slice(0, MOST).forEach(function (job) {
      var link = document.createElement("a");
      link.href = "jobs/" + job[0] + ".html";
      link.textContent = job[1] + " (" + job[0] + ", " + job[2] + ")";
      found.appendChild(document.createElement("li")).appendChild(link);
    });
    said.textContent = !words.length ? "" : hits.length === 0 ? "No other job has these words." :
      hits.length > MOST ? hits.length + " other jobs, of which " + MOST + " are shown; type more." :
      hits.length === 1 ? "1 other job" : hits.length + " other jobs";
  }
  form.hidden = false;
  form.addEventListener("submit", function (event) { event.preventDefault(); look(); });
  field.addEventListener("input", look);
})();
