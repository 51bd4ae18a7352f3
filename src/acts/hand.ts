/** Whose hand it was: the one signed in, unless another is named. */
import { type Desk, wrongField } from "./act.js";

export type Hand = { readonly by: string } | ReturnType<typeof wrongField>;

/** `label` is that of the field at `pointer`. */
export function handOf({ staff }: Desk, named: string | undefined, label: string, pointer = "/by"): Hand {
  const by = named ?? staff?.name;
  return by === undefined ? wrongField(pointer, "key missing", `${label} is missing; type the name.`) : { by };
}
