/* The place of a finding is pressed on its photo: the two fields take the share from the left and from the top. */
"use strict";

for (const form of document.querySelectorAll("form:has(input[type=file][name=photo])")) {
  const [photo, across, down] = ["photo", "across", "down"].map((name) => form.elements[name]);
  if (!across || !down) continue;
  const canvas = document.createElement("canvas");
  canvas.className = "place";
  canvas.hidden = true;
  canvas.setAttribute("role", "img");
  canvas.setAttribute("aria-label", "The photo: press the place, or type it below");
  photo.closest(".field").append(canvas);
  let picture = null;

  const draw = () => {
    const pen = canvas.getContext("2d");
    pen.drawImage(picture, 0, 0, canvas.width, canvas.height);
    if (across.value === "" || down.value === "") return;
    const [x, y] = [(across.value / 100) * canvas.width, (down.value / 100) * canvas.height];
    for (const [colour, width] of [["#ffffff", 7], ["#9c2118", 3]]) {
      pen.strokeStyle = colour;
      pen.lineWidth = width;
      pen.beginPath();
      pen.arc(x, y, 22, 0, 2 * Math.PI);
      pen.moveTo(x - 34, y);
      pen.lineTo(x + 34, y);
      pen.moveTo(x, y - 34);
      pen.lineTo(x, y + 34);
      pen.stroke();
    }
  };

  photo.addEventListener("change", async () => {
    canvas.hidden = true;
    if (!photo.files.length) return;
    try {
      picture = await createImageBitmap(photo.files[0]);
    } catch {
      return; // no picture: the shop says so when it is sent
    }
    canvas.width = 960;
    canvas.height = Math.round((960 * picture.height) / picture.width);
    canvas.hidden = false;
    draw();
  });

  canvas.addEventListener("click", (event) => {
    const box = canvas.getBoundingClientRect();
    across.value = Math.round((100 * (event.clientX - box.left)) / box.width);
    down.value = Math.round((100 * (event.clientY - box.top)) / box.height);
    draw();
  });

  for (const field of [across, down]) field.addEventListener("input", () => picture && draw());
}
