/** What an agreement profile asks for, as faults a person can act on. */

import type { Fault } from "../../acts/fault.js";
import type { EstimateInput } from "../../estimating/input.js";
import { profileOf } from "../../estimating/law/profiles.js";
import type { Unready } from "../../estimating/law/unready.js";
import { unreadyText } from "../../wording/profile.js";

/** `under` is where the input stands. */
export function profileFaults(lacks: readonly Unready[], { policy, paperwork }: EstimateInput, under: string): Fault[] {
  const { name } = profileOf(policy?.profile);
  const locale = paperwork?.locale ?? "en-GB";
  return lacks.map((lack) => ({
    pointer: "pointer" in lack ? under + lack.pointer : under,
    name: lack.is,
    detail: unreadyText(lack, name, locale),
  }));
}
