import type { Words } from "../english/index.js";

const NAMES: Readonly<Record<string, string>> = {
  plain: "Kein Rechtsprofil: die eigenen Bedingungen der Werkstatt",
  "us-ca": "Kalifornien: Reparatur elektronischer Geräte",
  "us-md-pg": "Prince George's County, Maryland: Reparatur von Fernseh- und Rundfunkgeräten",
  "ca-on": "Ontario: Verbraucherschutzgesetz von 2002, Artikel 10",
  "ca-qc": "Québec: Verbraucherschutzgesetz, Reparatur von Geräten",
  de: "Deutschland: Kostenanschlag, § 649 BGB",
  uk: "Vereinigtes Königreich: Verbraucherrechtegesetz 2015, Artikel 49 bis 52",
  au: "Australien: Australisches Verbraucherrecht, Artikel 101 und Reparaturhinweise",
  "eu-form": "Europäisches Formular für Reparaturinformationen, Richtlinie (EU) 2024/1799",
};

export const law: Words["law"] = {
  partsReturned: {
    returned: "Ausgetauschte Teile gehen an Sie zurück.",
    "in most cases": "Ausgetauschte Teile gehen in den meisten Fällen an Sie zurück; sagen Sie uns, wenn Sie sie wünschen.",
    "on request": "Ausgetauschte Teile gehen auf Wunsch an Sie zurück.",
    "not stated": "",
  },
  name: ({ id, name }) => NAMES[id] ?? name,
  notAdvice: "Keine Rechtsberatung; maßgeblich ist das Recht an Ihrem Ort.",
  writtenFor: (name) => `Abgefasst für: ${name}.`,
  notAboveYourCeiling: "Wir berechnen nicht ohne Ihre vorherige Zustimmung mehr, als Sie höchstens erlaubt haben.",
  notAboveTheCeiling: "Wir berechnen nicht ohne Ihre vorherige Zustimmung mehr als den Betrag unter „Nie mehr als“.",
  notAbove:
    "Wir gehen nicht ohne Ihre vorherige Zustimmung über diesen Kostenvoranschlag und die darin genannten möglichen Arbeiten hinaus.",
  notMoreAbove: (percent) =>
    `Wir gehen nicht ohne Ihre vorherige Zustimmung um mehr als ${percent} über diesen Kostenvoranschlag und die darin genannten möglichen Arbeiten hinaus.`,
  taxApart: "Die Umsatzsteuer kommt zum Kostenvoranschlag hinzu und ist nicht Teil davon.",
  noStoredData:
    "Sie haben uns gesagt, dass dieses Gerät keine Daten von Ihnen enthält. Die Reparatur kann löschen, was darin steht.",
  storedData: (held) =>
    `Dieses Gerät enthält Daten von Ihnen: ${held}. Die Reparatur kann sie löschen; bewahren Sie eine Kopie auf.`,
  usedPartsMaybe: "Gebrauchte oder aufgearbeitete Teile können eingebaut werden, wo es keine neuen gibt; die Rechnung nennt sie.",
  usedParts: (names) => `Gebrauchte oder aufgearbeitete Teile sind vorgesehen für: ${names}. Die Rechnung nennt jedes davon.`,
  warranty: (months) =>
    `Auf Teile und Arbeit besteht eine Garantie von ${months} ${months === 1 ? "Monat" : "Monaten"} ab Rückgabe des Geräts.`,
  itemisedBill: (ask, give) =>
    `Sie können binnen ${ask} Tagen eine aufgeschlüsselte Rechnung verlangen; Sie erhalten sie kostenlos binnen ${give} Tagen.`,
};

export const account: Words["account"] = {
  basis: {
    "fixed price": "Festpreis wie vereinbart",
    "time and parts": "Nach Aufwand bis zum vereinbarten Höchstbetrag",
    declined: "Abgelehnt: Fehlersuche und Öffnen, nicht mehr als zugesagt",
  },
  partState: { new: "neu", used: "gebraucht", reconditioned: "aufgearbeitet" },
  payment: {
    deposit: "Anzahlung",
    balance: "Restzahlung",
    "diagnosis fee": "Pauschale für die Fehlersuche",
    "decline fee": "Kosten bei Ablehnung",
    refund: "Rückzahlung",
    other: "Zahlung",
  },
  paper: {
    finalAccount: "Schlussrechnung",
    corrected: "Berichtigte Schlussrechnung",
    agreed: "Vereinbart",
    declined: "Abgelehnt",
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
    handedBack: "Rückgabe",
    abovePromised: "Über dem Zugesagten, nicht berechnet",
    nothingOwed: "Es ist nichts zu zahlen: Für die Fehlersuche war vorher weder eine Pauschale noch ein Höchstbetrag vereinbart.",
    yourRights: "Ihre gesetzlichen Verbraucherrechte bleiben davon unberührt.",
  },
  givenBack: (day) => `Zurückgezahlt am ${day}`,
  how: { cash: "bar", card: "Karte", transfer: "Überweisung", other: "auf anderem Weg" },
  receipt: {
    title: "Zahlungsbeleg",
    forWhat: "Wofür",
    how: "Zahlungsart",
    by: "Erhalten von",
    givenBy: "Zurückgezahlt von",
    amount: "Betrag",
  },
  received: (what, day) => `${what} erhalten am ${day}`,
  beforeTax: (amount) => `${amount} vor Umsatzsteuer`,
  limitPassed: (limit, by, reason, who) =>
    `Der vereinbarte Höchstbetrag von ${limit} ist um ${by} überschritten: ${reason} (${who}).`,
  limitHeld: (above, limit) => `${above} über dem vereinbarten Höchstbetrag von ${limit} werden nicht berechnet.`,
  promiseHeld: (above, promised) =>
    `Die Fehlersuche hat ${above} mehr gekostet, als mit höchstens ${promised} zugesagt war; das wird nicht berechnet.`,
  noWarranty: "Keine Garantie über die gesetzliche Gewährleistung hinaus.",
  warranty: (days, until) => `Garantie: ${days} ${days === 1 ? "Tag" : "Tage"}, bis ${until}.`,
  partsReturned: "Die ausgetauschten Teile gehen mit dem Gerät zurück.",
  partsKept: (why) => `Die ausgetauschten Teile gehen nicht zurück: ${why}.`,
  handedBackTo: (to, day) => `Zurückgegeben an ${to} am ${day}.`,
  handedBackWith: (things) => (things ? `Mit dabei: ${things}.` : "Sonst ging nichts mit."),
  outReturned: "Ausgebaute Teile gehen mit dem Gerät zurück.",
  outKept: (why) => `Ausgebaute Teile gehen nicht zurück: ${why}.`,
  notCharged: (worth) => `Arbeiten und Teile im Wert von ${worth} waren nicht vereinbart und werden nicht berechnet.`,
};

export const changes: Words["changes"] = {
  marks: { added: "Neu", dropped: "Entfallen", corrected: "Berichtigt", "price changed": "Preis geändert" },
  fields: {
    assembly: "Baugruppe",
    operation: "Arbeitsgang",
    part: "Teil",
    count: "Anzahl",
    certainty: "jetzt",
    "time each": "Zeit je Stück",
    original: "was jetzt eingebaut ist",
    "part price": "Preis des Teils",
    "part source": "Herkunft des Teils",
    "fixed price": "Preis je Stück",
    "labour class": "berechnet als",
    minutes: "Arbeitszeit",
    "unit price": "je Stück",
    amount: "Betrag",
  },
  figures: {
    total: "Gesamtbetrag",
    ceiling: "Nie mehr als",
    "if declined": "Bei Ablehnung nach dem Öffnen",
    deposit: "Anzahlung",
    "paid already": "Bereits bezahlt",
    due: "Offen",
    "valid until": "Gültig bis",
  },
  option: (names) => `Zusatzarbeit: ${names}`,
  ifFound: (names) => `Bei Bedarf: ${names}`,
  none: "nichts",
  instead: (what, after, before) => `${what} ${after} statt ${before}`,
  reasonTakenOut: "Begründung entfallen",
  reason: (text) => `Begründung: ${text}`,
  planned: "fest vorgesehen",
  ifFoundWith: (chance) => `bei Bedarf (Wahrscheinlichkeit ${chance})`,
  chosen: "eine Zusatzarbeit, gewählt",
  notChosen: "eine Zusatzarbeit, nicht gewählt",
  refused: (revision) => `in Revision ${revision} weggelassen`,
  days: (after, before) => `Etwa ${after} ${after === 1 ? "Tag" : "Tage"} bis zur Fertigstellung statt ${before}`,
};

export const causes: Words["causes"] = {
  prices: "geänderte Preise und Stundensätze",
  condition: "der Zustand des Geräts",
  access: "was geöffnet werden muss",
  dropped: "entfallene Arbeiten",
  found: "mögliche Arbeiten, die sich als nötig erwiesen",
  choice: "gewählte oder abgewählte Zusatzarbeiten",
  corrected: "berichtigte Arbeiten und Stückzahlen",
  "extra faults": "seither gefundene Fehler",
  terms: "Nachlass, Gebühren und Bedingungen",
};
