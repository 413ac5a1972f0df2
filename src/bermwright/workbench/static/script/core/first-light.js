// Sets the light before the first paint, so that lamp light never flashes white. No module: it must not wait.
(function () {
  var kept = null;
  try {
    kept = localStorage.getItem("light");
  } catch (_) {
    // Storage may be forbidden; then the light of the machine decides.
  }
  var dark = window.matchMedia && window.matchMedia("(prefers-color-scheme: dark)").matches;
  document.documentElement.dataset.light = kept || (dark ? "lamp" : "day");
  document.documentElement.classList.add("scripted");
  // The word says what it turns to.
  function sayOther() {
    var word = document.querySelector("[data-light-switch]");
    if (word) word.textContent = document.documentElement.dataset.light === "lamp" ? "day light" : "lamp light";
  }
  document.addEventListener("DOMContentLoaded", sayOther);
  document.addEventListener("light", sayOther);
  document.addEventListener("click", function (event) {
    var word = event.target.closest && event.target.closest("[data-light-switch]");
    if (!word) return;
    var light = document.documentElement.dataset.light === "lamp" ? "day" : "lamp";
    document.documentElement.dataset.light = light;
    try {
      localStorage.setItem("light", light);
    } catch (_) {
      // Kept for this page only.
    }
    document.dispatchEvent(new CustomEvent("light", { detail: light }));
  });
})();
