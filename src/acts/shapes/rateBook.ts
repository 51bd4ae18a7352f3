import { z } from "zod";
import { ASSEMBLY_SORTS } from "../../estimating/lists.js";
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
  prose,
  provenance,
  scarcity,
  taxRounding,
  threePoint,
} from "./primitives.js";

const retiredOn = maybe(isoDate).meta({ description: "From this day it is not offered any more; it stays for what rests on it" });

const labourClass = z
  .strictObject({ id: ident, name: line, ratePerHour: amount, attended: z.boolean(), source: provenance, retiredOn })
  .meta({ id: "LabourClass" });

const grade = z
  .strictObject({ id: ident, name: line, labourPercent: percent, spreadPercent: percent, source: provenance, retiredOn })
  .meta({ id: "ConditionGrade" });

const fastenerStandard = z
  .strictObject({ kind: fastenerKind, remove: threePoint, refit: threePoint, source: provenance, retiredOn })
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

const partFamily = z.enum([
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
]);

const partType = z
  .strictObject({
    id: ident,
    name: line,
    family: partFamily,
    leads: maybe(z.number()),
    minutes: maybe(threePoint),
    replacedBy: maybe(ident),
    polarised: maybe(z.boolean()),
    dielectric: maybe(z.enum(["aluminium", "tantalum", "film", "other"])),
    typicalCost: amount,
    hazards: maybe(z.array(hazard)),
    source: provenance,
    retiredOn,
  })
  .meta({ id: "PartType" });

const operationSort = z.enum(["replacement", "cleaning", "alignment", "inspection", "fault finding", "test", "soak", "other"]);

const operation = z
  .strictObject({
    id: ident,
    name: line,
    sort: operationSort,
    labourClass: ident,
    setup: threePoint,
    unit: threePoint,
    hazards: maybe(z.array(hazard)),
    source: provenance,
    retiredOn,
  })
  .meta({ id: "Operation" });

const companion = z
  .strictObject({
    operation: ident,
    first: maybe(z.literal(true)).meta({ description: "It comes before anything is opened" }),
    after: z.strictObject({
      sorts: maybe(z.array(operationSort)),
      families: maybe(z.array(partFamily)),
      places: maybe(z.array(z.enum(ASSEMBLY_SORTS))),
      hazards: maybe(z.array(hazard)),
    }),
    reason: line,
  })
  .meta({ id: "Companion" });
export const ownWorkKeys = {
  name: line,
  labourClass: maybe(ident),
  minutes: maybe(threePoint),
  hazards: maybe(z.array(hazard)),
};

const service = z
  .strictObject({
    id: ident,
    name: line,
    price: amount,
    work: z
      .array(
        z.strictObject({
          operation: maybe(ident),
          own: maybe(z.strictObject(ownWorkKeys)),
          count: z.number(),
          part: maybe(z.strictObject({ type: ident })),
          minutes: maybe(threePoint),
        }),
      )
      .meta({ description: "For one count of the service: what takes time and parts, at no charge of its own" }),
    note: maybe(prose),
    source: provenance,
    retiredOn,
  })
  .meta({ id: "Service", description: "A flat-rate line: sold at its price, with the work and parts behind it" });

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
    billing: z.strictObject({
      minutes: maybe(z.enum(["likely", "expected"])).meta({
        description:
          "What a count charges of a three-point time; absent: likely. 'expected' is the mean, (low + 4 likely + high) / 6, with billing steps within the lines",
      }),
      setUps: maybe(z.enum(["any work", "replacements"])).meta({
        description: "What work on the unit as a whole is set up on each counted board for, and all else once; absent: any work",
      }),
      incrementMinutes: minutes,
      minimumCharge: amount,
    }),
    grades: z.array(grade),
    fasteners: z.array(fastenerStandard),
    accessStandards: z.array(accessStandard),
    accessClass: ident,
    leads,
    partTypes: z.array(partType),
    operations: z.array(operation),
    companions: maybe(z.array(companion)),
    services: maybe(z.array(service)),
    parts: z.strictObject({
      markUp: z.array(z.strictObject({ upTo: maybe(amount), percent })),
      packs: z.enum(["used", "whole"]),
      offerGoodForDays: z.number(),
      exchangeGoodForDays: maybe(z.number()),
      sundries: z.strictObject({ percentOfParts: percent, percentOfLabour: percent, cap: maybe(amount) }),
    }),
    scarcity: z.strictObject({
      marginFrom: maybe(z.enum(["percent", "offers"])).meta({
        description:
          "'offers': by the buy plan of a part's own offers, and by the percentages only where there are none; absent: percent",
      }),
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
    ceiling: z.strictObject({
      abovePercent: percent,
      leavesRoom: maybe(z.boolean()).meta({ description: "And at least the total with the dearest possible work; absent: no" }),
    }),
    calendar: z.strictObject({ weeklyBenchMinutes: minutes }),
    risk: maybe(z.enum(["each", "shared"])).meta({
      description:
        "'shared': in the risk of a job, what several possible faults need is opened and set up once, and buy plans spend least on average; absent: each by itself",
    }),
    safety: maybe(z.enum(["by default", "as said"])).meta({
      description:
        "'by default': a unit counts as mains powered until someone says otherwise, and work on a cell asks what the unit holds; absent: as said",
    }),
    valueSharePercent: percent,
    validityDays: z.number(),
  })
  .meta({ id: "RateBook" });
