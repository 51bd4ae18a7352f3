import type { Words } from "../english/index.js";

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
  "ceiling above total": "Der Höchstbetrag liegt um einen festen Prozentsatz über dem Gesamtbetrag.",
  "ceiling set by owner": "Der Höchstbetrag ist der, den der Auftraggeber gesetzt hat.",
  "ceiling by agreement profile": "Der Höchstbetrag liegt nicht weiter über dem Gesamtbetrag, als die geltenden Regeln zulassen.",
  "ceiling for what may turn up": "Der Höchstbetrag lässt Raum für das, was sich vor der Arbeit nicht wissen lässt.",
  "price is fixed": "Der Preis ist fest und damit auch der Höchstbetrag.",
  "allowance for risk": "Ein Festpreis enthält einen Zuschlag für das, was sich vor der Arbeit nicht wissen lässt.",
  "diagnosis limit": "Was bei Ablehnung zu zahlen ist, endet bei der vorher vereinbarten Grenze.",
  "deposit on scarce parts": "Schwer beschaffbare Teile werden vor der Bestellung bezahlt.",
  "deposit on labour": "Ein Teil der Arbeitszeit wird vor Beginn bezahlt.",
};
