/** What an agreement profile asks for, as faults a person can act on. */
import { profileOf } from "../../estimating/agreement/profile.js";
import type { Unready } from "../../estimating/agreement/unready.js";
import type { EstimateInput } from "../../estimating/input.js";
import { unreadyText } from "../../wording/profile.js";
import type { Fault } from "./shape.js";

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
