/** Photos are made smaller before they are sent; what was written into them by a camera goes with it. Without this script they go as they are. */
import { PHOTO_LIMITS } from "../../wording/photoRefusal.js";

const LONGEST = PHOTO_LIMITS.paperSide;
const QUALITY = 0.85;

const input = document.getElementById("photo") as HTMLInputElement | null;
const said = document.getElementById("resized");
const add = document.getElementById("add") as HTMLButtonElement | null;

/** As it was where a browser cannot read it: the server then says what is wrong. */
async function smaller(file: File): Promise<File> {
  try {
    const picture = await createImageBitmap(file);
    const scale = Math.min(1, LONGEST / Math.max(picture.width, picture.height));
    const canvas = document.createElement("canvas");
    canvas.width = Math.max(1, Math.round(picture.width * scale));
    canvas.height = Math.max(1, Math.round(picture.height * scale));
    const pen = canvas.getContext("2d")!;
    pen.fillStyle = "#fff";
    pen.fillRect(0, 0, canvas.width, canvas.height);
    pen.imageSmoothingQuality = "high";
    pen.drawImage(picture, 0, 0, canvas.width, canvas.height);
    picture.close();
    const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, "image/jpeg", QUALITY));
    return blob ? new File([blob], `${file.name.replace(/\.\w+$/, "")}.jpg`, { type: "image/jpeg" }) : file;
  } catch {
    return file;
  }
}

input?.addEventListener("change", async () => {
  const files = [...(input.files ?? [])];
  if (files.length === 0 || !add) return;
  add.disabled = true;
  const made = new DataTransfer();
  for (const [at, file] of files.entries()) {
    if (said) said.textContent = `Making photo ${at + 1} of ${files.length} smaller…`;
    made.items.add(await smaller(file));
  }
  input.files = made.files;
  const bytes = [...made.files].reduce((sum, { size }) => sum + size, 0);
  if (said) said.textContent = `${files.length} ready, ${Math.max(1, Math.round(bytes / 1024))} kB in all.`;
  add.disabled = false;
});
document.getElementById("summary")?.focus();
