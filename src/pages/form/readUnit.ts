/** The unit and its owner. */
import type { Hazard, Party, Unit } from "../../estimating/input.js";
import { HAZARDS } from "../../estimating/lists.js";
import type { Draft } from "./draft.js";
import { given } from "./given.js";
import { choice, line, lines, marked, money, note, type Reading } from "./reading.js";

export function readUnit(at: Reading, { unit, caution }: Draft): Unit {
  at.where.set("/unit/grade", "unit.grade");
  at.where.set("/unit/declaredValue", "unit.value");
  const hazards = marked<Hazard>(caution, HAZARDS);
  const grades = at.context.rateBook.grades.map(({ id }) => id);
  return given({
    maker: line(at, "unit.maker", unit.maker) ?? "",
    model: line(at, "unit.model", unit.model) ?? "",
    serial: line(at, "unit.serial", unit.serial),
    declaredValue: money(at, "unit.value", unit.value),
    grade: choice(at, "unit.grade", unit.grade, grades) ?? grades[0] ?? "",
    accessories: lines(at, "unit.accessories", unit.accessories),
    condition: note(at, "unit.condition", unit.condition),
    reported: note(at, "unit.reported", unit.reported),
    found: note(at, "unit.found", unit.found),
    storedData: readStoredData(at, unit),
    hazards: hazards.length > 0 ? hazards : undefined,
  });
}

/** What is written wins over 'none'. */
function readStoredData(at: Reading, unit: Draft["unit"]): string | undefined {
  const written = note(at, "unit.storedData", unit.storedData);
  if (unit.dataHeld === "held" && written === undefined) at.problems.push({ name: "missing", field: "unit.storedData" });
  return written ?? (unit.dataHeld === "none" ? "" : undefined);
}

export function readOwner(at: Reading, { owner }: Draft): Party | undefined {
  const party = given({
    name: line(at, "owner.name", owner.name) ?? "",
    address: lines(at, "owner.address", owner.address),
    phone: line(at, "owner.phone", owner.phone),
    email: line(at, "owner.email", owner.email),
  });
  return party.name === "" && Object.keys(party).length === 1 ? undefined : party;
}
