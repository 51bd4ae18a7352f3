import type { Words } from "../english/index.js";

export const unitDetails: Words["unitDetails"] = {
  maker: "der Hersteller",
  model: "das Modell",
  serial: "die Seriennummer",
  declaredValue: "der angegebene Wert",
  grade: "die Zustandsstufe",
  accessories: "das mitgegebene Zubehör",
  condition: "der Zustand bei Annahme",
  reported: "der gemeldete Fehler",
  found: "der Befund",
  storedData: "die gespeicherten Daten",
  hazards: "die Gefahren im Gerät",
};
