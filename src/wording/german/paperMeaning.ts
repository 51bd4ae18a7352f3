import type { Words } from "../english/index.js";

export const paperMeaning: Words["paperMeaning"] = {
  heading: "Was die Beträge bedeuten",
  ceiling: "Höchstbetrag",
  notAbove: (ceiling) => `Wir gehen nicht ohne neue Zustimmung über ${ceiling} inkl. Umsatzsteuer hinaus.`,
  ifDeclined: "Bei Ablehnung",
  owed: "Was Sie schulden, wenn Sie ablehnen, nachdem das Gerät geöffnet wurde.",
  owedFor: (diagnosis, access, tax) => `Fehlersuche ${diagnosis}, Öffnen und Zusammenbau ${access}, Umsatzsteuer ${tax}`,
  stoppedAt: (parts, amount) => `${parts}, begrenzt auf den vereinbarten Betrag: ${amount}.`,
  comesTo: (parts, amount) => `${parts}: ${amount}.`,
  deposit: "Anzahlung",
  noDeposit: "Keine.",
  partOfTotal: (amount) => `${amount} als Teil des Gesamtbetrags, vor Beginn der Arbeit.`,
  days: "Tage",
  daysFrom: (total, queue, lead, bench) =>
    `Etwa ${total} ${total === 1 ? "Tag" : "Tage"} ab Ihrer Zustimmung: ${queue} bis zum freien Arbeitsplatz, ${lead} Wartezeit auf Teile, ${bench} in Arbeit.`,
  restsOn: "Grundlage",
  opening: (how) => `Das Öffnen ist angesetzt ${how}.`,
  work: (how) => `Die Arbeit ist gezählt ${how}.`,
  shareOfValue: (percent, value) => `Der Gesamtbetrag ist ${percent} des von Ihnen angegebenen Werts von ${value}.`,
  aboveYourCeiling: "Der Gesamtbetrag liegt über dem Höchstbetrag, den Sie gesetzt haben: Die Arbeit wartet auf Ihre Antwort.",
};
