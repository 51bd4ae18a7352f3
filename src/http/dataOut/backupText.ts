/** Why a backup was not put in place, as a person reads it. */

import type { AnswerName } from "../../acts/refusals.js";
import type { BackupFault } from "../../records/backup/read.js";
import type { Restored } from "../../records/backup/restore.js";

type Refused = Exclude<Restored, { readonly is: "restored" }>;

export function backupFaultText(fault: BackupFault): string {
  switch (fault.is) {
    case "no backup":
      return "This is no backup of Ohmwright; give the file that `npm run backup` or GET /api/backup wrote.";
    case "newer":
      return `This backup was made by a newer Ohmwright (tables number ${fault.schema}; this one knows up to ${fault.known}). Update this one first; nothing was restored.`;
    case "cut off":
      return `This backup ends too early, at line ${fault.line}: it was cut off or is damaged. Nothing was restored; use another copy of it.`;
    case "altered":
      return `Line ${fault.line} of this backup is not as it was written: it was changed or is damaged. Nothing was restored; use another copy of it.`;
  }
}

export function restoreRefused(refused: Refused): readonly [name: AnswerName, said: { readonly detail: string }] {
  switch (refused.is) {
    case "shop there":
      return [
        "shop there",
        { detail: `The table ${refused.table} holds rows; restore into a database that was migrated and never filled.` },
      ];
    case "older":
      return [
        "backup older",
        {
          detail: `Its tables are number ${refused.schema}, those here ${refused.known}. \`npm run restore\` brings it up to date on the way, into a hosted database too (LIBSQL_URL).`,
        },
      ];
    case "newer":
      return ["backup newer", { detail: backupFaultText(refused) }];
    default:
      return ["backup unreadable", { detail: backupFaultText(refused) }];
  }
}
