import type { Minutes } from "../estimating/input.js";
import { decimal, FALLBACK_LOCALE } from "./number.js";

/** From an hour up in hours and whole minutes, below it to a tenth of a minute. */
export function duration(minutes: Minutes, locale: string = FALLBACK_LOCALE): string {
  const tenths = Math.round(Math.abs(minutes) * 10);
  const sign = minutes < 0 && tenths > 0 ? "-" : "";
  if (tenths < 600) return `${sign}${decimal(String(tenths / 10), locale, { maximumFractionDigits: 1 })}\u00a0min`;
  const whole = Math.round(tenths / 10);
  const hours = `${sign}${Math.floor(whole / 60)}\u00a0h`;
  return whole % 60 === 0 ? hours : `${hours} ${whole % 60}\u00a0min`;
}
