/** Counted boards become rows of the grid; everything else stays as typed. */

import { LIMITS } from "../../../estimating/problems.js";
import { refineBoards } from "../../../estimating/teardown/refineBoards.js";
import type { FormContext } from "../context.js";
import { type Fields, key } from "../fields.js";
import { fieldsForMap, penFor } from "../fieldsFor.js";
import { readForm } from "../readForm.js";
import type { Acted } from "./act.js";

export function refine(fields: Fields, context: FormContext): Acted {
  const { input, problems } = readForm(fields, context);
  const boards = input.boards ?? [];
  const sound = boards.every(({ count }) => Number.isInteger(count) && count > 0 && count <= LIMITS.boards);
  if (!sound || problems.some(({ field }) => field.startsWith("boards."))) {
    return { fields: new Map(fields), say: "Put the board counts right first; nothing was changed." };
  }
  if (boards.length === 0) return { fields: new Map(fields), say: "No boards are counted yet." };

  const known = new Set(input.map?.assemblies.map(({ id }) => id));
  const refined = refineBoards(input);
  const fresh = refined.map?.assemblies.filter(({ id }) => !known.has(id)) ?? [];
  const filled = new Map([...fields].filter(([name]) => !name.startsWith("boards.")));
  for (const [name, text] of fieldsForMap({ assemblies: fresh }, penFor(context))) if (text !== undefined) filled.set(name, text);
  for (const { id } of fresh) filled.set(`assembly.${key(id)}.wanted`, "on");
  const first = fresh[0] && `assembly.${key(fresh[0].id)}.name`;
  return {
    fields: filled,
    ...(first && { focus: first }),
    say: `${fresh.length} boards have a row each now. Name them, and move counts from the whole unit to where they belong.`,
  };
}
