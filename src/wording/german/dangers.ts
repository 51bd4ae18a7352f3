import type { Words } from "../english/index.js";

export const dangers: Words["dangers"] = {
  names: {
    "mains and stored charge": "Netzspannung und gespeicherte Ladung",
    "valve high tension": "Hochspannung der Röhren",
    "lithium cells": "Lithiumzellen",
    "leaking cells": "auslaufende Zellen",
    "lead solder": "bleihaltiges Lot",
    "solvent vapour": "Lösemitteldämpfe",
    mercury: "Quecksilber",
    asbestos: "Asbest",
    selenium: "Selen",
    "picture tube": "Bildröhre",
  },
  atHome: (listed) =>
    `Im Gerät können Gefahren lauern: ${listed}. Manche bleiben auch bei gezogenem Netzstecker. Öffnen Sie es nicht und schalten Sie es ` +
    "nicht ein, bevor es repariert und geprüft ist. Beachten Sie die örtlichen Vorschriften; Arbeiten an Netz- und Hochspannung sind Sache von Fachkräften.",
};
