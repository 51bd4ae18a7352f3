import { duration } from "../duration.js";
import type { Words } from "../english/index.js";

export const lists: Words["lists"] = {
  and: "und",
  spread: ({ low, likely, high }, locale) =>
    `zwischen ${duration(low, locale)} und ${duration(high, locale)}, am ehesten ${duration(likely, locale)}`,
  days: (count) => `${count} ${count === 1 ? "Tag" : "Tage"}`,
};
