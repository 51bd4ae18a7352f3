import type { Words } from "../english/index.js";

export const account: Words["account"] = {
  basis: {
    "fixed price": "Festpreis wie vereinbart",
    "time and parts": "Nach Aufwand bis zum vereinbarten Höchstbetrag",
  },
  partState: { new: "neu", used: "gebraucht", reconditioned: "aufgearbeitet" },
  payment: { deposit: "Anzahlung", "diagnosis fee": "Pauschale für die Fehlersuche", other: "Zahlung" },
  paper: {
    finalAccount: "Schlussrechnung",
    corrected: "Berichtigte Schlussrechnung",
    agreed: "Vereinbart",
    date: "Datum",
    basis: "Grundlage",
    total: "Gesamtbetrag inkl. Umsatzsteuer",
    paid: "Bereits bezahlt",
    paidBack: "Rückzahlung an Sie",
    stillToPay: "Noch zu zahlen",
    aboveLimit: "Über dem vereinbarten Höchstbetrag, nicht berechnet",
    hours: "Arbeitszeit und Stundensatz",
    labour: "Arbeitszeit",
    labourWithin: "Arbeitszeit innerhalb des Preises",
    ...{ time: "Zeit", ratePerHour: "Stundensatz", amount: "Betrag" },
    worked: (attended, unattended) =>
      `Jede Zeile ist für sich gerundet. Tatsächlich gearbeitet: ${attended}${unattended === undefined ? "" : `, dazu ${unattended} ohne Aufsicht`}.`,
    partsFitted: "Eingebaute Teile",
    ...{ part: "Teil", state: "Zustand", pieces: "Stück" },
    warrantyAndParts: "Garantie und Teile",
    yourRights: "Ihre gesetzlichen Verbraucherrechte bleiben davon unberührt.",
  },
  received: (what, day) => `${what} erhalten am ${day}`,
  beforeTax: (amount) => `${amount} vor Umsatzsteuer`,
  limitPassed: (limit, by, reason, who) =>
    `Der vereinbarte Höchstbetrag von ${limit} ist um ${by} überschritten: ${reason} (${who}).`,
  limitHeld: (above, limit) => `${above} über dem vereinbarten Höchstbetrag von ${limit} werden nicht berechnet.`,
  noWarranty: "Keine Garantie über die gesetzliche Gewährleistung hinaus.",
  warranty: (days, until) => `Garantie: ${days} ${days === 1 ? "Tag" : "Tage"}, bis ${until}.`,
  partsReturned: "Die ausgetauschten Teile gehen mit dem Gerät zurück.",
  partsKept: (why) => `Die ausgetauschten Teile gehen nicht zurück: ${why}.`,
  notCharged: (worth) => `Arbeiten und Teile im Wert von ${worth} waren nicht vereinbart und werden nicht berechnet.`,
};
