import { z } from "zod";
import { offerState } from "./part.js";
import {
  amount,
  boardSize,
  currency,
  fastenerKind,
  hazard,
  ident,
  isoDate,
  line,
  maybe,
  minutes,
  mounting,
  percent,
  provenance,
  scarcity,
  taxRounding,
  threePoint,
} from "./primitives.js";

const labourClass = z
  .strictObject({ id: ident, name: line, ratePerHour: amount, attended: z.boolean(), source: provenance })
  .meta({ id: "LabourClass" });

const grade = z
  .strictObject({ id: ident, name: line, labourPercent: percent, spreadPercent: percent, source: provenance })
  .meta({ id: "ConditionGrade" });

const fastenerStandard = z
  .strictObject({ kind: fastenerKind, remove: threePoint, refit: threePoint, source: provenance })
  .meta({ id: "FastenerStandard" });

const accessStandard = z
  .strictObject({ size: boardSize, mounting, remove: threePoint, refit: threePoint, source: provenance })
  .meta({ id: "AccessStandard" });

const leads = z
  .strictObject({
    desolder: threePoint,
    clear: threePoint,
    fit: threePoint,
    solder: threePoint,
    inspect: threePoint,
    source: provenance,
  })
  .meta({ id: "LeadStandard" });

const partType = z
  .strictObject({
    id: ident,
    name: line,
    family: z.enum([
      "capacitor",
      "resistor",
      "control",
      "semiconductor",
      "valve",
      "cell",
      "connector",
      "lamp",
      "mechanical",
      "other",
    ]),
    leads: maybe(z.number()),
    minutes: maybe(threePoint),
    polarised: maybe(z.boolean()),
    dielectric: maybe(z.enum(["aluminium", "tantalum", "film", "other"])),
    typicalCost: amount,
    hazards: maybe(z.array(hazard)),
    source: provenance,
  })
  .meta({ id: "PartType" });

const operation = z
  .strictObject({
    id: ident,
    name: line,
    sort: z.enum(["replacement", "cleaning", "alignment", "inspection", "fault finding", "test", "soak", "other"]),
    labourClass: ident,
    setup: threePoint,
    unit: threePoint,
    hazards: maybe(z.array(hazard)),
    source: provenance,
  })
  .meta({ id: "Operation" });

const tax = z
  .strictObject({
    included: z.boolean(),
    categories: z.array(z.strictObject({ id: ident, name: line, percent })),
    labour: ident,
    parts: ident,
    freight: ident,
    fees: ident,
    rounding: taxRounding,
  })
  .meta({ id: "TaxRules" });

export const rateBook = z
  .strictObject({
    id: ident,
    version: z.number(),
    name: line,
    currency,
    inForceFrom: isoDate,
    labourClasses: z.array(labourClass),
    billing: z.strictObject({ incrementMinutes: minutes, minimumCharge: amount }),
    grades: z.array(grade),
    fasteners: z.array(fastenerStandard),
    accessStandards: z.array(accessStandard),
    accessClass: ident,
    leads,
    partTypes: z.array(partType),
    operations: z.array(operation),
    parts: z.strictObject({
      markUp: z.array(z.strictObject({ upTo: maybe(amount), percent })),
      packs: z.enum(["used", "whole"]),
      offerGoodForDays: z.number(),
      exchangeGoodForDays: maybe(z.number()),
      sundries: z.strictObject({ percentOfParts: percent, percentOfLabour: percent, cap: maybe(amount) }),
    }),
    scarcity: z.strictObject({
      marginPercent: z.record(scarcity, percent),
      serviceLevel: z.number(),
      fewSources: z.number(),
      freshDays: z.number(),
      shareGood: z.record(offerState, z.number()),
      source: provenance,
    }),
    fees: z.strictObject({
      diagnosis: z.strictObject({ amount, creditedOnAgreement: z.boolean() }),
      rushPercent: percent,
      storagePerDay: amount,
    }),
    deposit: z.strictObject({ scarcePartsPercent: percent, labourPercent: percent }),
    tax,
    ceiling: z.strictObject({ abovePercent: percent }),
    calendar: z.strictObject({ weeklyBenchMinutes: minutes }),
    valueSharePercent: percent,
    validityDays: z.number(),
  })
  .meta({ id: "RateBook" });
