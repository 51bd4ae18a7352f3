/** An id as one part of a field's name: no dots, no white space, never mistaken for a number or for the whole-unit row `*`. */
export const key = (id: string): string => id.replace(/[%.*\s"'<>&]/g, escaped).replace(/^[0-9_]/, escaped);

export const idOf = (part: string): string => {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
};

const escaped = (text: string): string =>
  [...new TextEncoder().encode(text)].map((byte) => `%${byte.toString(16).toUpperCase().padStart(2, "0")}`).join("");
