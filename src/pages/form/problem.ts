/** What can be wrong with the text of a form before it is an input. `field` is the name of the field it stands in. */
interface In {
  readonly field: string;
}

export type FormProblem = In &
  (
    | { readonly name: "number unreadable"; readonly text: string }
    | { readonly name: "number ambiguous"; readonly text: string }
    | { readonly name: "too many decimals"; readonly text: string; readonly most: number }
    | { readonly name: "number too long"; readonly text: string }
    | { readonly name: "missing" }
    | { readonly name: "name unknown"; readonly text: string; readonly known: readonly string[] }
    | { readonly name: "choice unknown"; readonly text: string }
    | { readonly name: "line break" }
    | { readonly name: "control character" }
    | { readonly name: "reason missing" }
    | { readonly name: "too long"; readonly length: number; readonly limit: number }
  );
