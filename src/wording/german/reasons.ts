import type { BoardSize, Mounting } from "../../estimating/input.js";
import type { ScarcityReason } from "../../estimating/sheet.js";
import type { Words } from "../english/index.js";
import { decimal, type Figures, money, percent, plainNumber } from "../figures.js";
import { listed, listedShort } from "../list.js";
import { day, duration } from "../time.js";

const ONE: Readonly<Record<BoardSize, string>> = {
  small: "kleine Platine",
  medium: "mittlere Platine",
  large: "große Platine",
};
const MANY: Readonly<Record<BoardSize, string>> = {
  small: "kleine Platinen",
  medium: "mittlere Platinen",
  large: "große Platinen",
};
const MOUNTED: Readonly<Record<Mounting, string>> = {
  "on top": "obenauf",
  "behind another": "hinter einer anderen",
  "behind a panel with knobs": "hinter einer Frontplatte mit Knöpfen",
};
export const boardsNamed = (size: BoardSize, mounting: Mounting, count = 1): string =>
  `${(count === 1 ? ONE : MANY)[size]} ${MOUNTED[mounting]}`;

export const lists: Words["lists"] = {
  and: "und",
  spread: ({ low, likely, high }, locale) =>
    `zwischen ${duration(low, locale)} und ${duration(high, locale)}, am ehesten ${duration(likely, locale)}`,
  days: (count) => `${count} ${count === 1 ? "Tag" : "Tage"}`,
};

export const detail: Words["detail"] = {
  counts: "nach bloßen Stückzahlen und den Richtwerten der Werkstatt, ohne dass eine Baugruppe genannt ist",
  grid: "Baugruppe für Baugruppe nach den Richtwerten der Werkstatt",
  map: "Baugruppe für Baugruppe nach dem Zerlegeplan des Modells",
  mixed: "teils Baugruppe für Baugruppe, teils nach bloßen Stückzahlen oder Richtwerten",
  none: "mit nichts, denn es fällt nichts an",
};

export const rules: Words["rules"] = {
  "access charged once per opening":
    "Öffnen und Zusammenbau einer Baugruppe werden einmal berechnet, gleich wie viel darin gearbeitet wird.",
  "billing increment": "Die Arbeitszeit jeder Lohnart wird auf die Abrechnungseinheit der Werkstatt aufgerundet.",
  "minimum charge": "Arbeitszeit und Zugang zusammen machen mindestens den Mindestbetrag aus.",
  "mark-up by unit cost": "Der Aufschlag auf ein Teil richtet sich danach, was ein Stück kostet.",
  "whole packs": "Das Teil gibt es nur in ganzen Packungen, und ganze Packungen werden berechnet.",
  "scarcity margin": "Ein schwer beschaffbares Teil trägt den Beschaffungszuschlag der Werkstatt.",
  "sundries percentage": "Lötzinn, Flussmittel, Reiniger und dergleichen werden als Prozentsatz berechnet.",
  "sundries cap": "Das Kleinmaterial endet bei der Obergrenze der Werkstatt.",
  "freight once per source": "Versandkosten fallen je Bezugsquelle einmal an, gleich wie viele Teile von dort kommen.",
  "rush percentage": "Arbeit außer der Reihe trägt einen Prozentsatz auf Arbeitszeit und Zugang.",
  "diagnosis fee": "Die Fehlersuche und dieser Kostenvoranschlag kosten eine Pauschale.",
  "diagnosis fee credited": "Die Pauschale für die Fehlersuche wird bei Auftrag angerechnet.",
  storage: "Lagerung wird nach Tagen berechnet.",
  discount: "Ein Nachlass wurde aus dem genannten Grund gewährt.",
  "promised price": "Arbeit mit eigenem Preis wird nie darüber berechnet, was immer alles zusammen ergäbe.",
  "ceiling above total": "Der Betrag liegt um einen festen Prozentsatz über dem Gesamtbetrag.",
  "ceiling set by owner": "Es ist der Betrag, den der Auftraggeber gesetzt hat.",
  "ceiling by agreement profile": "Der Betrag liegt nicht weiter über dem Gesamtbetrag, als die geltenden Regeln zulassen.",
  "ceiling for what may turn up": "Der Betrag lässt Raum für das, was sich vor der Arbeit nicht wissen lässt.",
  "price is fixed": "Der Preis ist fest und damit nie höher als der Gesamtbetrag.",
  "allowance for risk": "Ein Festpreis enthält einen Zuschlag für das, was sich vor der Arbeit nicht wissen lässt.",
  "diagnosis limit": "Was bei Ablehnung zu zahlen ist, endet bei der vorher vereinbarten Grenze.",
  "deposit on scarce parts": "Schwer beschaffbare Teile werden vor der Bestellung bezahlt.",
  "deposit on labour": "Ein Teil der Arbeitszeit wird vor Beginn bezahlt.",
};

const all = (names: readonly string[]): string => listed(names, "und");

export const why: Words["why"] = {
  worked: () => "Daran wird gearbeitet.",
  "in the way of": ({ of }) => `Muss abgebaut werden, um an Folgendes zu gelangen: ${all(of)}.`,
  "joined to": ({ to }) => `Kommt zusammen heraus mit: ${all(to)}.`,
  "by standard": ({ size, mounting, lowMinutes, highMinutes }, { locale }) =>
    `Nach dem Richtwert der Werkstatt (${boardsNamed(size, mounting)}): ${duration(lowMinutes, locale)} bis ${duration(highMinutes, locale)}.`,
  leads: ({ leads, minutesEach, setupMinutes, gradePercent }, { locale }) =>
    `Je ${leads} ${leads === 1 ? "Anschluss" : "Anschlüsse"}: ${duration(minutesEach, locale)} pro Stück${andSetup(setupMinutes, 1, locale)}${inCondition(gradePercent, locale)}.`,
  each: ({ minutesEach, setupMinutes, setups, gradePercent }, { locale }) =>
    `${duration(minutesEach, locale)} pro Stück${andSetup(setupMinutes, setups, locale)}${inCondition(gradePercent, locale)}.`,
  "fixed price": ({ price, service }, figures) =>
    service
      ? `Eine Leistung der Werkstatt zu ${money(price, figures)}, mit allem, was dazugehört.`
      : `Zum Festpreis von ${money(price, figures)}, gleich wie lange es dauert.`,
  "brought by the owner": () => "Vom Kunden mitgebracht; darauf gibt die Werkstatt keine Gewähr.",
  "price of this line": ({ catalogue, per, cost, reason, source }, figures) =>
    `Katalogpreis ${money(catalogue, figures)}${per === 1 ? "" : ` für ${per}`}, hier ${money(cost, figures)}${source ? ` (${source})` : ""}: ${reason}`,
  scarcity: ({ scarcity: how, percent: margin, because }, figures) =>
    `${scarcity.names[how]}: ${reasonText(because, figures)}; ${percent(margin, figures.locale)} der Kosten decken Stücke, die schlecht oder teurer ausfallen.`,
  "buy plan": ({ needed, pieces, probability }, { locale }) =>
    pieces > needed
      ? `Nicht jedes Stück erweist sich als gut: ${pieces} werden gekauft, damit ${needed} funktionieren; das gelingt in ${percent(Math.round(probability * 100), locale)} der Fälle.`
      : "Nicht jedes Stück erweist sich als gut; dies deckt einen möglichen Nachkauf.",
  increment: ({ minutes, increment }, { locale }) =>
    `Insgesamt ${duration(minutes, locale)}, abgerechnet in Schritten von ${duration(increment, locale)}.`,
  minimum: ({ minimum }, figures) => `Ergänzt Arbeitszeit und Zugang zum Mindestbetrag von ${money(minimum, figures)}.`,
  credited: () => "Abgezogen, wenn die Arbeit beauftragt wird.",
  "storage days": ({ days }) => (days === 1 ? "Einen Tag gelagert." : `${days} Tage gelagert.`),
  "labour allowance": () =>
    "Manche Arbeit kann länger dauern als üblich; dafür ist dies angesetzt, und Sie zahlen dann nicht mehr.",
  "sourcing allowance": ({ parts }) =>
    `${all(parts)}: schwer zu beschaffen, und nicht jedes Stück ist gut; dies dient dazu, genügend gute zu kaufen, und Sie zahlen nicht mehr, wenn es mehr kostet.`,
  "if-found allowance": ({ work }) =>
    `Ob dies nötig ist, zeigt sich erst bei der Arbeit: ${work.join("; ")}. Dies deckt es ab, und es wird nicht noch einmal berechnet.`,
  "margin allowance": () => "Was die Werkstatt über die zu erwartenden Kosten von Arbeit und Teilen hinaus verlangt.",
  reason: ({ text }) => text,
};

const reasonText = (reason: ScarcityReason, figures: Figures): string =>
  (scarcity.reasons[reason.is] as (reason: ScarcityReason, figures: Figures) => string)(reason, figures);

const andSetup = (minutes: number, setups: number, locale: string): string =>
  minutes === 0 || setups === 0
    ? ""
    : setups === 1
      ? ` und ${duration(minutes, locale)} Rüstzeit`
      : ` und ${setups}-mal ${duration(minutes, locale)} Rüstzeit`;

const inCondition = (gradePercent: number | undefined, locale: string): string =>
  gradePercent === undefined ? "" : `; davon ${percent(gradePercent, locale)} bei diesem Zustand`;

const fromSources = (count: number, one: string, many: string): string => (count === 1 ? one : `${count} ${many}`);

const reasons: Words["scarcity"]["reasons"] = {
  "set by hand": () => "die Werkstatt hat festgelegt, wie schwer es zu beschaffen ist",
  "on the shelf": ({ stock }) => `${stock} auf Lager`,
  "new parts offered": ({ sources: count }) =>
    `noch in Fertigung; neu angeboten von ${fromSources(count, "einer Quelle", "Quellen")}`,
  "few sources": ({ sources: count }) => `nicht mehr in Fertigung; nur ${fromSources(count, "eine Quelle", "Quellen")} gefunden`,
  "several sources": ({ sources: count }) =>
    `nicht mehr in Fertigung, aber ${fromSources(count, "eine Quelle", "Quellen")} gefunden`,
  "not enough offered": ({ offered, needed }) =>
    `etwa ${offered} gute ${offered === 1 ? "ist" : "sind"} zu haben und ${needed} ${needed === 1 ? "wird" : "werden"} gebraucht`,
  "old offers only": ({ newest }, { locale }) => `das neueste Angebot ist vom ${day(newest, locale)}`,
  "donor pulls only": () => "nur aus Spendergeräten zu haben, und nicht jedes Stück wird gut sein",
  "no offers": () => "kein Angebot liegt vor",
  "usual part": () => "ein gängiges Teil, nach Art gezählt",
};

export const scarcity: Words["scarcity"] = {
  reasons,
  names: {
    "in stock": "Auf Lager",
    "to order": "Zu bestellen",
    scarce: "Schwer beschaffbar",
    "donor only": "Nur aus Spendergeräten",
  },
};

export const sources: Words["sources"] = {
  texts: {
    item: ({ id }) => `Arbeitsposten ${id}.`,
    assembly: ({ name }) => `Baugruppe ${name}.`,
    operation: ({ name }) => `Arbeitsgang ${name}.`,
    "rate book": ({ entry }) => `Richtwert ${entry} der Werkstatt.`,
    offer: ({ source, on }, { locale }) => `Angebot von ${source} vom ${day(on, locale)}.`,
    exchange: ({ what, price, currency, rate, on, source, amount }, figures) =>
      `${what === "pack" ? "Eine Packung" : "Fracht"} zu ${money(price, { ...figures, currency })}, 1 ${currency} = ${exact(rate, figures)} ${figures.currency} vom ${day(on, figures.locale)} (${source}): ${money(amount, figures)}.`,
    duty: ({ percent: share, base, amount }, figures) =>
      `Zoll, ${percent(share, figures.locale)} von ${money(base, figures)}: ${money(amount, figures)}.`,
    "import tax": ({ percent: share, base, amount }, figures) =>
      `Einfuhrsteuer, ${percent(share, figures.locale)} von ${money(base, figures)}: ${money(amount, figures)}.`,
    landed: ({ packSize, amount }, figures) =>
      `Zusammen ${money(amount, figures)} für eine Packung${packSize === 1 ? "" : ` zu ${packSize} Stück`}.`,
    "parcel fee": ({ amount }, figures) => `Mit der Gebühr für das Paket, ${money(amount, figures)}.`,
    "minimum order": ({ packs, packSize, used }) =>
      `Die Quelle verkauft nicht weniger als ${packs} ${packs === 1 ? "Packung" : "Packungen"}${packSize === 1 ? "" : ` zu ${packSize} Stück`}: ${used} von ${packs * packSize} Stück ${used === 1 ? "wird" : "werden"} verbraucht, alle werden berechnet.`,
    stock: () => "Aus dem Lager der Werkstatt.",
    policy: ({ entry }) => `Für diesen Kostenvoranschlag festgelegt: ${entry}.`,
  },
  counted: (boards) => `Gezählt: ${boards}.`,
};

const volts = (value: number, { locale }: Figures) => `${plainNumber(value, locale)}\u00a0V`;

const exact = (digits: string, { locale }: Figures) => decimal(digits, locale, { maximumFractionDigits: 12 });

export const warnings: Words["warnings"] = {
  "possible work above ceiling": ({ total, ceiling }, figures) =>
    `Wird alles Mögliche gefunden, kommt es auf ${money(total, figures)}, mehr als der Höchstbetrag von ${money(ceiling, figures)}; dann fragen Sie vorher, und das steht auf dem Papier des Auftraggebers.`,
  "value share": ({ percent: share, limit, total, declared }, figures) =>
    `Der Gesamtbetrag von ${money(total, figures)} ist ${percent(share, figures.locale)} des angegebenen Werts von ${money(declared, figures)} und damit mehr als die ${percent(limit, figures.locale)}, ab denen die Werkstatt warnt; fragen Sie den Auftraggeber, ob ihm das Gerät das wert ist.`,
  "lower voltage": ({ part, original, replacement }, figures) =>
    `${part} verträgt ${volts(replacement, figures)}, das Original ${volts(original, figures)}; wählen Sie mindestens so viel.`,
  derating: ({ part, working, rated, limitPercent }, figures) =>
    `${part} läge mit ${volts(working, figures)} bei einer Nennspannung von ${volts(rated, figures)} über den üblichen ${percent(limitPercent, figures.locale)}; wählen Sie eine höhere.`,
  polarised: ({ part }) =>
    `${part} ist gepolt und das Original nicht; wählen Sie ein bipolares Teil oder einen Folienkondensator, oder prüfen Sie die Vorspannung.`,
  "not audio grade": ({ part }) =>
    `${part} ist nicht als Audiotype bezeichnet und das Original schon; wählen Sie eine Audiotype oder klären Sie die Änderung mit dem Auftraggeber.`,
  "value off": ({ part, offPercent, tolerancePercent }, { locale }) =>
    `${part} weicht um ${percent(offPercent, locale)} vom ursprünglichen Wert ab, mehr als die ursprüngliche Toleranz von ${percent(tolerancePercent, locale)}; prüfen Sie, ob die Schaltung das zulässt.`,
  "value unreadable": ({ part, marking }) =>
    `Der Aufdruck '${marking}' von ${part} war nicht zu lesen, der Wert wurde daher nicht verglichen; prüfen Sie ihn von Hand.`,
  "old offer": ({ part, on, days }, { locale }) =>
    `Der Preis von ${part} beruht auf einem Angebot vom ${day(on, locale)}, das ${days} ${days === 1 ? "Tag" : "Tage"} alt ist; fragen Sie vor der Bestellung neu an.`,
  "not enough offered": ({ part, needed, offered }) =>
    `Von ${part} werden ${needed} gebraucht, angeboten ${offered === 1 ? "ist" : "sind"} ${offered}; finden Sie eine weitere Quelle, bevor die Arbeit vereinbart wird.`,
  "minimum order": ({ part, source, packs, packSize, used, amount, unused }, figures) =>
    `Von ${part} ${used === 1 ? "wird 1 Stück" : `werden ${used} Stück`} verbraucht und ${packs} ${packs === 1 ? "Packung" : "Packungen"}${packSize === 1 ? "" : ` zu ${packSize} Stück`} berechnet, weil ${source} nicht weniger verkauft: ${money(amount, figures)}, davon ${money(unused, figures)} für übrige Stücke; suchen Sie eine Quelle ohne Mindestmenge oder sagen Sie es dem Auftraggeber.`,
  "old exchange rate": ({ currency, rate, on, days, goodForDays }, figures) =>
    `Preise in ${currency} sind zum Kurs ${exact(rate, figures)} vom ${day(on, figures.locale)} gerechnet, der ${days} ${days === 1 ? "Tag" : "Tage"} alt ist; ein Kurs gilt ${goodForDays} ${goodForDays === 1 ? "Tag" : "Tage"}. Tragen Sie den Kurs von heute ein und übernehmen Sie ihn.`,
  "access by standard": ({ lowMinutes, likelyMinutes, highMinutes }, { locale }) =>
    `Der Zugang ist nach den Richtwerten der Werkstatt angesetzt, nicht nach einem Zerlegeplan: zwischen ${duration(lowMinutes, locale)} und ${duration(highMinutes, locale)}, am ehesten ${duration(likelyMinutes, locale)}.`,
  "memory not asked": () =>
    "Arbeiten an einer Zelle können löschen, was das Gerät gespeichert hat, und niemand hat danach gefragt; fragen Sie den Auftraggeber und halten Sie es beim Zustand des Geräts fest.",
  "above ceiling": ({ total, ceiling }, figures) =>
    `Der Gesamtbetrag von ${money(total, figures)} liegt über dem Höchstbetrag des Auftraggebers von ${money(ceiling, figures)}; lassen Sie Arbeiten weg oder vereinbaren Sie vor Beginn einen höheren.`,
  "discount limited": ({ asked, given }, figures) =>
    `Ein Nachlass von ${money(asked, figures)} war gewünscht und ${money(given, figures)} wurden gewährt, denn ein Nachlass kann nicht höher sein als das, wovon er abgeht.`,
  "currency scale": ({ currency, decimals }) =>
    `${currency} hat ${decimals} Nachkommastellen und ein Dokument nach EN 16931 höchstens 2; eine elektronische Kopie kann gerundet sein.`,
  "missing glyphs": ({ text, characters }) =>
    `Die Schriften haben kein Zeichen für ${listedShort(characters, 12, { and: "und", more: "weitere" })} in '${text}'; gedruckt wird eine Marke.`,
};
