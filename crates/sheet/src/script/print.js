// Long lists that are folded away on a screen are printed all the same, and folded again after.
(() => {
  let opened = [];
  window.addEventListener("beforeprint", () => {
    opened = [...document.querySelectorAll("details.long:not([open])")];
    for (const element of opened) element.open = true;
  });
  window.addEventListener("afterprint", () => {
    for (const element of opened) element.open = false;
    opened = [];
  });
})();
