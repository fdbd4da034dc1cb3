/* Tables that sort by value. Without this script they read as they stand. */
(function () {
  "use strict";
  var ROWS = 3;

  /* What a cell is sorted by: its numbers where it has any, else its words. */
  function worth(row, column) {
    var cell = row.cells[column];
    var value = cell.getAttribute("data-value");
    return value === null ? null : value.split(" ").map(Number);
  }

  function words(row, column) {
    return row.cells[column].textContent.trim();
  }

  function compared(one, other) {
    for (var n = 0; n < Math.min(one.length, other.length); n += 1) {
      if (one[n] !== other[n]) { return one[n] - other[n]; }
    }
    return one.length - other.length;
  }

  /* The rows in a new order. What has no value among values stays behind them, whichever way the table runs. */
  function ordered(rows, column, down) {
    var valued = rows.some(function (row) { return worth(row, column) !== null; });
    var sign = down ? -1 : 1;
    return rows.slice().sort(function (a, b) {
      if (!valued) {
        return sign * words(a, column).localeCompare(words(b, column), "en", { numeric: true });
      }
      var one = worth(a, column), other = worth(b, column);
      if (one === null || other === null) { return (one === null) - (other === null); }
      return sign * compared(one, other);
    });
  }

  function sortable(table) {
    var body = table.tBodies[0];
    var heads = table.tHead ? Array.prototype.slice.call(table.tHead.rows[0].cells) : [];
    var filed = body ? Array.prototype.slice.call(body.rows) : [];
    if (filed.length < ROWS) { return; }
    var select = document.createElement("select");

    function show(column, down) {
      heads.forEach(function (head, n) {
        if (n === column) {
          head.setAttribute("aria-sort", down ? "descending" : "ascending");
        } else {
          head.removeAttribute("aria-sort");
        }
      });
      (column < 0 ? filed : ordered(filed, column, down)).forEach(function (row) { body.appendChild(row); });
      select.value = column < 0 ? "" : column + (down ? " down" : " up");
    }

    function option(value, text) {
      var made = document.createElement("option");
      made.value = value;
      made.textContent = text;
      select.appendChild(made);
    }

    option("", "as on file");
    heads.forEach(function (head, n) {
      var button = document.createElement("button");
      var name = head.textContent;
      button.type = "button";
      while (head.firstChild) { button.appendChild(head.firstChild); }
      head.appendChild(button);
      /* Up, down, and back to the order on file. */
      button.addEventListener("click", function () {
        var now = head.getAttribute("aria-sort");
        if (now === "descending") { show(-1, false); } else { show(n, now === "ascending"); }
      });
      option(n + " up", name + ", upwards");
      option(n + " down", name + ", downwards");
    });

    /* On a phone there is no head to press; a list of choices stands above the blocks instead. */
    var label = document.createElement("label");
    label.className = "sort";
    label.textContent = "Sort by ";
    label.appendChild(select);
    table.parentNode.insertBefore(label, table);
    select.addEventListener("change", function () {
      var chosen = select.value.split(" ");
      show(select.value === "" ? -1 : Number(chosen[0]), chosen[1] === "down");
    });
    table.classList.add("sortable");
  }

  /* A row that is laid out as a block is no row any more to a screen reader, unless it says so. */
  function roles(table) {
    var named = {
      "thead, tbody": "rowgroup", "tr": "row", "thead th": "columnheader", "tbody th": "rowheader", "td": "cell"
    };
    table.setAttribute("role", "table");
    Object.keys(named).forEach(function (selector) {
      table.querySelectorAll(selector).forEach(function (part) { part.setAttribute("role", named[selector]); });
    });
  }

  /* The theme opens all folds for printing. Which ones the reader left closed is kept, so that paper has them closed. */
  var printing = false;
  window.addEventListener("beforeprint", function () { printing = true; }, true);
  window.addEventListener("afterprint", function () { printing = false; }, true);
  function noted(fold) {
    if (!printing) { fold.toggleAttribute("data-shut", !fold.open); }
  }

  /* On a phone a long list that stands open is folded, unless the address leads into it. */
  if (window.matchMedia("screen and (max-width: 44.9375em)").matches) {
    document.querySelectorAll("details.how[open]").forEach(function (list) {
      list.open = list.querySelector(":target") !== null;
    });
  }

  document.querySelectorAll("article details").forEach(function (fold) {
    noted(fold);
    fold.addEventListener("toggle", function () { noted(fold); });
  });
  document.querySelectorAll("table.blocks").forEach(roles);
  document.querySelectorAll("table.held").forEach(sortable);
}());
