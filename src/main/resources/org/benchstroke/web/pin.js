// Keys that a glove hits, for a PIN: they type into the field beside them. Without this script the
// field itself takes it.
"use strict";
for (const pad of document.querySelectorAll("[data-pin]")) {
  const field = document.getElementById(pad.dataset.pin);
  const key = (text, name, typed) => {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "hand";
    button.textContent = text;
    button.setAttribute("aria-label", name);
    button.addEventListener("click", typed);
    pad.append(button);
  };
  const type = (digit) => () => { field.value += digit; };
  for (const digit of "123456789") key(digit, digit, type(digit));
  key("⌫", "Take the last one back", () => { field.value = field.value.slice(0, -1); });
  key("0", "0", type("0"));
  key("✕", "Begin again", () => { field.value = ""; });
  pad.setAttribute("role", "group");
  pad.setAttribute("aria-label", "Keys for the PIN");
  pad.hidden = false;
}
