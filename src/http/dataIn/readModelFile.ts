/** Reads a shared teardown map and says everything that keeps it from being kept here. Writes nothing. */

import { faultsIn } from "../../acts/checked.js";
import { type Fault, shapeFaults } from "../../acts/fault.js";
import { MAP_FORMAT, MAP_VERSION, modelFile } from "../../acts/model.js";
import type { Assembly, RateBook, TeardownMap } from "../../estimating/input.js";
import type { Model } from "../../records/models.js";

export type ModelFileRead =
  | {
      readonly ok: true;
      readonly model: Model;
      /** Ids of parts and work that the rate book here has no entry for, left out on request. */
      readonly leftOut: readonly string[];
    }
  | { readonly ok: false; readonly faults: readonly Fault[] };

const fault = (name: string, detail: string, pointer = ""): ModelFileRead => ({ ok: false, faults: [{ pointer, name, detail }] });

export function readModelFile(text: string, rateBook: RateBook, leaveOut: boolean): ModelFileRead {
  if (text.trim() === "") return fault("text empty", "There is nothing to read; choose a file or paste its text.");
  let value: unknown;
  try {
    value = JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch {
    return fault("json malformed", "This is not JSON; check that the file was pasted whole, from the first { to the last }.");
  }
  const { format, version } = (typeof value === "object" && value !== null ? value : {}) as Record<string, unknown>;
  if (format !== MAP_FORMAT)
    return fault("shape unknown", `This is no teardown map: "format" must be "${MAP_FORMAT}". Download one from a model's page.`);
  if (typeof version === "number" && version > MAP_VERSION)
    return fault(
      "choice unknown",
      `The file is of version ${version}, and this program reads up to version ${MAP_VERSION}; update it first, or ask for an older file.`,
      "/version",
    );
  const read = modelFile.safeParse(value);
  if (!read.success) return { ok: false, faults: shapeFaults(read.error.issues, value) };
  const { format: _, version: __, ...model } = read.data;
  const kept = withKnown(model.map, rateBook);
  const map = leaveOut ? kept.map : model.map;
  const faults = [
    ...faultsIn({ map }, rateBook, "/map").map((one) => ({ ...one, pointer: `/map${one.pointer}` })),
    ...(leaveOut ? [] : kept.unknown),
  ];
  if (model.map.assemblies.length === 0)
    return fault("key missing", "The map has no assembly; a map says at least what comes off.", "/map/assemblies");
  if (faults.length > 0) return { ok: false, faults };
  return { ok: true, model: { ...model, map }, leftOut: leaveOut ? kept.leftOut : [] };
}

/** Counts and work worth doing name entries of the rate book they were made with. */
function withKnown(map: TeardownMap, { partTypes, operations }: RateBook) {
  const types = new Set(partTypes.map(({ id }) => id));
  const works = new Set(operations.map(({ id }) => id));
  const leftOut = new Set<string>();
  const unknown: Fault[] = [];
  const assemblies = map.assemblies.map((assembly, at): Assembly => {
    const { counts = {}, worthDoing = [], ...rest } = assembly;
    const known = Object.entries(counts).filter(([id]) => types.has(id) || works.has(id));
    for (const id of Object.keys(counts)) {
      if (types.has(id) || works.has(id)) continue;
      leftOut.add(id);
      unknown.push({
        pointer: `/map/assemblies/${at}/counts`,
        name: "record unknown",
        detail: `${assembly.name}: the usual count of '${id}' has no entry in the rate book here; add the entry, or leave it out.`,
      });
    }
    const doable = worthDoing.filter(
      ({ operation, partType }) => works.has(operation) && (partType === undefined || types.has(partType)),
    );
    for (const { operation, partType } of worthDoing) {
      if (!works.has(operation)) leftOut.add(operation);
      else if (partType !== undefined && !types.has(partType)) leftOut.add(partType);
    }
    return {
      ...rest,
      ...(known.length > 0 && { counts: Object.fromEntries(known) }),
      ...(doable.length > 0 && { worthDoing: doable }),
    };
  });
  return { map: { ...map, assemblies }, leftOut: [...leftOut].sort(), unknown };
}
