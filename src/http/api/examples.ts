/** A body of each operation that takes one. tests/http/api/examples.test.ts sends every one to a demo shop. All invented. */
const SOURCE = { basis: "demo" };
const NONE = { low: 0, likely: 0, high: 0 };
const NEW_BOOK = {
  ...{ name: "Small book", currency: "GBP", inForceFrom: "2026-01-01" },
  labourClasses: [{ id: "bench", name: "Bench work", ratePerHour: 4800, attended: true, source: SOURCE }],
  billing: { incrementMinutes: 6, minimumCharge: 4800 },
  grades: [{ id: "worn", name: "Worn", labourPercent: 110, spreadPercent: 30, source: SOURCE }],
  fasteners: [],
  accessStandards: [],
  accessClass: "bench",
  leads: { desolder: NONE, clear: NONE, fit: NONE, solder: NONE, inspect: NONE, source: SOURCE },
  partTypes: [],
  operations: [
    {
      ...{ id: "clean-pots", name: "Clean a pot", sort: "cleaning", labourClass: "bench", source: SOURCE },
      setup: { low: 2, likely: 3, high: 5 },
      unit: { low: 1, likely: 1.5, high: 3 },
    },
  ],
  parts: {
    markUp: [{ percent: 30 }],
    packs: "used",
    offerGoodForDays: 90,
    sundries: { percentOfParts: 0, percentOfLabour: 0 },
  },
  scarcity: {
    marginPercent: { "in stock": 0, "to order": 0, scarce: 30, "donor only": 60 },
    ...{ serviceLevel: 0.9, fewSources: 2, freshDays: 90, source: SOURCE },
    shareGood: { new: 1, "new old stock": 0.9, used: 0.7, "donor pull": 0.7, reproduction: 0.95 },
  },
  fees: { diagnosis: { amount: 3500, creditedOnAgreement: true }, rushPercent: 25, storagePerDay: 150 },
  deposit: { scarcePartsPercent: 100, labourPercent: 0 },
  tax: {
    included: false,
    categories: [{ id: "standard", name: "Standard", percent: 20 }],
    ...{ labour: "standard", parts: "standard", freight: "standard", fees: "standard" },
    rounding: { level: "document", mode: "half up" },
  },
  ceiling: { abovePercent: 10 },
  calendar: { weeklyBenchMinutes: 1500 },
  valueSharePercent: 50,
  validityDays: 30,
};
const BOOK = { id: "small-book", version: 1, ...NEW_BOOK };
const INPUT = {
  ...{ schema: 1, asOf: "2026-11-25", currency: "GBP" },
  unit: { maker: "Unmarked", model: "Mixer, eight channels", grade: "worn" },
  items: [
    { id: "w01", operation: "clean-pots", count: 24, certainty: { is: "planned" } },
    // On no list: in the shop's own words, by minutes or at a price; and a part at its cost.
    {
      ...{ id: "w02", count: 1, certainty: { is: "planned" } },
      own: { name: "Test the memory battery under load", minutes: { low: 12, likely: 12, high: 12 } },
    },
    {
      ...{ id: "w03", count: 1, certainty: { is: "planned" } },
      own: { name: "Fit the voice chip and tune it", price: 4500 },
      part: { own: { name: "Voice chip, pulled", cost: 9500, source: "Wrendale Surplus", state: "donor pull", shareGood: 0.8 } },
    },
  ],
};
const PRICED = { ...INPUT, rateBook: BOOK };
const OWNER = { name: "Orla Thistlewick", address: ["The Old Granary", "Dunnowfield"], email: "orla@thistlewick.example" };
const UNIT = { ownerId: "01a19b7c-a680-772a-a2a0-9fcf3f132fa2", maker: "Hallorin", model: "Skep 3", serial: "14 0734" };
const MAP = {
  assemblies: [{ id: "lid", name: "Lid", sort: "cover", access: { by: "fasteners", fasteners: [{ kind: "screw", count: 6 }] } }],
};
const MODEL = { maker: "Quellmarsh", model: "Solivane 61", map: MAP };
const KIND = { type: "electrolytic", name: "Electrolytic 1 µF 100 V", value: "1u", ratedVolts: 100 };
const DONOR = {
  ...{ maker: "Hallorin", model: "Skep 3", serial: "14 0012", boughtOn: "2026-11-20", currency: "GBP", cost: 6000 },
  parts: [
    { kind: "pinch-roller", pieces: 1, price: 1800, pullMinutes: 20 },
    { kind: "el-10u-450", pieces: 2 },
  ],
};
const EXCHANGE_RATE = { currency: "JPY", rate: "0.0052", on: "2026-11-20", source: "The shop's bank" };
const OFFER = {
  ...{ kind: "el-1u-100", source: "Pindrake Components", on: "2026-11-20", currency: "GBP" },
  ...{ price: 95, packSize: 10, leadDays: 3, state: "new" },
};
const JOB = {
  ownerId: "01a19b7c-a680-772a-a2a0-9fcf3f132fa2",
  unitId: "01a1e3cc-9d00-7f4b-a612-df82a8e3dbe4",
  arrivedOn: "2026-11-24",
  reported: "Hum on every voice.",
};
const ESTIMATE = {
  jobId: "01a1e8fd-0b20-7cb5-9019-4936cadd928a",
  rateBookId: "bench-book",
  rateBookVersion: 1,
  input: { ...INPUT, unit: { ...INPUT.unit, maker: UNIT.maker, model: UNIT.model } },
};
const BY = { by: "Marta Lind" };

export const EXAMPLES: Readonly<Record<string, unknown>> = {
  priceEstimate: PRICED,
  weighEstimate: PRICED,
  refineEstimate: PRICED,
  printEstimate: PRICED,
  printBenchSheet: PRICED,
  printShopCopy: PRICED,
  addOwner: OWNER,
  replaceOwner: OWNER,
  addUnit: UNIT,
  replaceUnit: UNIT,
  addModel: MODEL,
  replaceModel: MODEL,
  addRateBook: NEW_BOOK,
  replaceRateBook: NEW_BOOK,
  changeRateBook: {
    inForceFrom: "2026-12-01",
    labourClasses: [{ id: "bench", ratePerHour: 6000 }],
    operations: [{ id: "replace", unit: { likely: 1.8 } }],
    parts: { sundries: { cap: null } },
  },
  addPartKind: KIND,
  replacePartKind: KIND,
  keepForNextTime: { items: ["w02"] },
  importLines: { text: "own,minutes,count\nTest the memory battery under load,15,1\n" },
  mergePartKind: { ...BY, into: "Electrolytic 1 µF 100 V" },
  addOffer: OFFER,
  confirmOffer: { on: "2026-11-25", price: 290 },
  addExchangeRate: EXCHANGE_RATE,
  replaceExchangeRate: EXCHANGE_RATE,
  replaceOffer: OFFER,
  addDonorUnit: DONOR,
  replaceDonorUnit: DONOR,
  pullFromDonor: { ...BY, kind: "pinch-roller", pieces: 1, tested: { good: 1 } },
  addJob: JOB,
  replaceJob: JOB,
  addEstimate: ESTIMATE,
  replaceEstimate: ESTIMATE,
  replaceSettings: {
    ...{ name: "Lanternfold Electronics Repair", rateBookId: "bench-book", currency: "GBP", locale: "en-GB" },
    ...{ timeZone: "Europe/London", paper: "A4", benchQueueDays: 9 },
  },
  issueEstimate: { ...BY, deliveredTo: "by e-mail" },
  addNextEstimate: {},
  addAgreement: {
    ...{ answer: "agreed", by: "Orla Thistlewick", channel: "e-mail", recordedBy: "Marta Lind" },
    writing: "e-mail of 25 November, 10:12",
  },
  addOwnerLink: { ...BY, deliveredTo: "orla@thistlewick.example" },
  withdrawDraft: { ...BY, reason: "begun on the wrong job" },
  priceExtraFault: { reason: "regulator drops out when warm", part: "Voltage regulator", where: "Supply board" },
  addExtraFault: {
    ...{ reason: "corroded link", work: "Clean a board", certainty: "if found", chance: 25 },
    ...{ where: "Battery tray", placeFasteners: { screw: 3 }, placeOpen: true },
  },
  withdrawOwnerLink: { ...BY, reason: "sent to the wrong address" },
  replyToQuestion: { ...BY, text: "Yes, the old parts go back with the unit." },
  addLogEntry: { item: "w01", minutes: 12, person: "Marta Lind", workedOn: "2026-11-25" },
  withdrawLogEntry: { ...BY, reason: "logged on the wrong job" },
  startTimer: { item: "w01", person: "Marta Lind" },
  stopTimer: { person: "Marta Lind" },
  beginUnpaid: { by: "Marta Lind", reason: "an old customer" },
  addTickOff: { item: "w01", count: 1, person: "Marta Lind" },
  addReading: { label: "supply +12 V", expected: 12, found: 11.9, unit: "V", person: "Marta Lind" },
  addPayment: { ...BY, for: "deposit", amount: 2500, on: "2026-11-25", how: "card" },
  withdrawPayment: { ...BY, reason: "typed on the wrong job" },
  addCloseOut: {
    ...BY,
    closedOn: "2026-11-25",
    untouched: { all: "done, not timed" },
    unlogged: "none used",
    payments: [],
    warrantyDays: 90,
    oldParts: { is: "returned" },
  },
  addHandBack: {
    ...{ ...BY, closedOn: "2026-11-25", to: "Orla Thistlewick", accessories: ["Power lead"] },
    ...{ note: "Closed up as it came.", oldParts: { is: "returned" } },
  },
  eraseOwner: BY,
  importTable: { text: "name,type,value\nElectrolytic 33 µF 50 V,electrolytic,33u\n" },
  addOrder: { ...BY, orderedOn: "2026-11-25", source: "Pindrake Components", lines: [{ offer: "o01", packs: 2 }] },
  addOrderEnding: { ...BY, reason: "sold out" },
  addGoodsIn: {
    ...{ ...BY, receivedOn: "2026-11-25", kind: "el-1u-100", source: "Pindrake Components" },
    ...{ state: "new", pieces: 10, paid: 90 },
  },
  addGoodsTest: { ...BY, good: 9, bad: 1 },
  addStockCount: { ...BY, kind: "el-1u-100", counted: 12, reason: "counted on the shelf" },
};
