(function () {
  "use strict";
  var page = document;
  function all(query, from) { return Array.prototype.slice.call((from || page).querySelectorAll(query)); }
  page.documentElement.classList.add("js");

  // Circuits shown and hidden: a run is every mark that stands for a leg of it.
  all("[data-circuit]").forEach(function (box) {
    function show() {
      all('[data-subject^="leg ' + box.getAttribute("data-circuit") + ' "]').forEach(function (run) {
        run.style.visibility = box.checked ? "" : "hidden";
      });
    }
    box.addEventListener("change", show);
    show();
  });
  all("[data-whole]").forEach(function (button) {
    button.addEventListener("click", function () {
      var sheet = page.getElementById(button.getAttribute("data-whole"));
      var whole = sheet.classList.toggle("whole");
      button.textContent = whole ? "Larger" : "Whole floor";
    });
  });

  // A point that was tapped: the nearest one, where marks lie close together.
  var card = page.getElementById("card"), words = page.getElementById("card-words");
  var close = page.getElementById("card-close"), chosen = null;
  function middle(hit) {
    var box = hit.getBoundingClientRect();
    return { x: (box.left + box.right) / 2, y: (box.top + box.bottom) / 2 };
  }
  function nearest(event, hit) {
    if (!event.detail) { return hit; } // by keyboard
    var best = hit, least = Infinity;
    all(".hit", hit.ownerSVGElement).forEach(function (other) {
      var at = middle(other), x = at.x - event.clientX, y = at.y - event.clientY;
      if (x * x + y * y < least) { least = x * x + y * y; best = other; }
    });
    return best;
  }
  function hide() {
    if (chosen) { chosen.classList.remove("chosen"); chosen.focus(); }
    chosen = null;
    card.hidden = true;
  }
  function open(hit) {
    var line = page.getElementById("point-" + hit.getAttribute("data-point"));
    if (!line) { return; }
    if (chosen) { chosen.classList.remove("chosen"); }
    chosen = hit;
    hit.classList.add("chosen");
    words.textContent = "";
    var copy = line.cloneNode(true);
    copy.removeAttribute("id");
    words.appendChild(copy);
    card.hidden = false;
    close.focus();
  }
  all(".hit").forEach(function (hit) {
    hit.addEventListener("click", function (event) {
      event.preventDefault();
      open(nearest(event, hit));
    });
  });
  close.addEventListener("click", hide);
  page.addEventListener("keydown", function (event) {
    if (event.key === "Escape" && !card.hidden) { hide(); }
  });

  // On paper nothing stays folded away.
  window.addEventListener("beforeprint", function () {
    all("details").forEach(function (one) { one.open = true; });
  });

  // What is optional: what every combination comes to came with the page, and
  // the heading follows what is ticked.
  var table = page.getElementById("sums");
  var boxes = all("[data-bit]");
  if (table && boxes.length) {
    var combinations = JSON.parse(table.getAttribute("data-sums"));
    var show = function () {
      var kept = boxes.reduce(function (bits, one) {
        return bits | (one.checked ? 1 << Number(one.getAttribute("data-bit")) : 0);
      }, 0);
      var now = combinations[kept];
      all("[data-sum]").forEach(function (cell) {
        cell.textContent = now.sums[Number(cell.getAttribute("data-sum"))];
      });
      all("[data-says]").forEach(function (place) {
        place.textContent = now[place.getAttribute("data-says")];
      });
    };
    boxes.forEach(function (box) {
      box.checked = true;
      box.addEventListener("change", show);
    });
    show();
  }
}());
