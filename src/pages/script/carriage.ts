/** What the page brought along to price against. */
import type { Carriage } from "../intake/intakePage.js";

export const carriage = (): Carriage => JSON.parse(document.getElementById("context")?.textContent ?? "{}");
