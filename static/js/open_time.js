/* The open time of a sealant runs down; the shop itself refuses a late closing, this only shows what is left. */
"use strict";

for (const timer of document.querySelectorAll("[data-open-until]")) {
  const until = Date.parse(timer.dataset.openUntil);
  const left = timer.querySelector("span");
  const show = () => {
    const seconds = Math.floor((until - Date.now()) / 1000);
    const late = seconds < 0;
    timer.className = late ? "wrong" : "caution";
    left.textContent = late ? timer.dataset.late : `${Math.floor(seconds / 60)} min ${seconds % 60} s left.`;
    if (late) clearInterval(running);
  };
  const running = setInterval(show, 1000);
  show();
}
