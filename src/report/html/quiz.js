"use strict";
// Questions on the screen: their answers one after the other. What an answer says stands in the key, and
// is shown from there; on paper and without scripts the key stands behind the questions.
(() => {
  const $ = (id) => document.getElementById(id);
  const key = $("key");
  if (!key) return;
  const buttons = Array.from(document.querySelectorAll(".reveal"));
  const isOpen = (button) => button.getAttribute("aria-expanded") === "true";
  const tell = () => {
    const open = buttons.filter(isOpen).length;
    $("quiz-status").textContent = open === 0 ? "" : open + " of " + buttons.length + " answers shown";
    $("next-answer").disabled = open === buttons.length;
    $("hide-answers").disabled = open === 0;
  };
  const set = (button, open) => {
    const shown = $(button.getAttribute("aria-controls"));
    button.setAttribute("aria-expanded", String(open));
    shown.replaceChildren(...(open ? $(button.dataset.key).cloneNode(true).childNodes : []));
  };
  buttons.forEach((button) => button.addEventListener("click", () => {
    set(button, !isOpen(button));
    tell();
  }));
  $("next-answer").addEventListener("click", () => {
    const next = buttons.find((button) => !isOpen(button));
    if (!next) return;
    set(next, true);
    tell();
    next.focus();
    next.closest("li").scrollIntoView({ block: "center" });
  });
  $("hide-answers").addEventListener("click", () => {
    buttons.forEach((button) => set(button, false));
    tell();
    $("next-answer").focus();
  });
  $("whole-key").addEventListener("click", () => {
    const open = key.classList.toggle("open");
    $("whole-key").setAttribute("aria-expanded", String(open));
    if (open) key.scrollIntoView();
  });
  tell();
})();
