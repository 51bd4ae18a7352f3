import { day } from "../day.js";
import { duration } from "../duration.js";
import type { Words } from "../english/index.js";
import { listedShort } from "../list.js";
import { money } from "../money.js";
import { plainNumber } from "../number.js";
import { percent } from "../percent.js";
import type { Figures } from "../tongue.js";

const volts = (value: number, { locale }: Figures) => `${plainNumber(value, locale)}\u00a0V`;

export const warnings: Words["warnings"] = {
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
  "access by standard": ({ lowMinutes, likelyMinutes, highMinutes }, { locale }) =>
    `Der Zugang ist nach den Richtwerten der Werkstatt angesetzt, nicht nach einem Zerlegeplan: zwischen ${duration(lowMinutes, locale)} und ${duration(highMinutes, locale)}, am ehesten ${duration(likelyMinutes, locale)}.`,
  "above ceiling": ({ total, ceiling }, figures) =>
    `Der Gesamtbetrag von ${money(total, figures)} liegt über dem Höchstbetrag des Auftraggebers von ${money(ceiling, figures)}; lassen Sie Arbeiten weg oder vereinbaren Sie vor Beginn einen höheren.`,
  "discount limited": ({ asked, given }, figures) =>
    `Ein Nachlass von ${money(asked, figures)} war gewünscht und ${money(given, figures)} wurden gewährt, denn ein Nachlass kann nicht höher sein als das, wovon er abgeht.`,
  "currency scale": ({ currency, decimals }) =>
    `${currency} hat ${decimals} Nachkommastellen und ein Dokument nach EN 16931 höchstens 2; eine elektronische Kopie kann gerundet sein.`,
  "missing glyphs": ({ text, characters }) =>
    `Die Schriften haben kein Zeichen für ${listedShort(characters, 12, { and: "und", more: "weitere" })} in '${text}'; gedruckt wird eine Marke.`,
};
