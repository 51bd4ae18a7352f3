/** Every small change of a source text that a test should notice: read off the TypeScript tree, one place and one change each. */
import { parseAst } from "vitest/node";

export interface Mutant {
  /** What stands there and what it becomes, and the text it is tried in: the whole of a chain with `?.`, which brackets would break. */
  readonly from: number;
  readonly was: string;
  readonly becomes: string;
  readonly whole: { readonly from: number; readonly to: number; readonly becomes: string };
  /** A block is left out, anything else is worked out differently. */
  readonly block: boolean;
}
interface Tree {
  readonly type: string;
  readonly start: number;
  readonly end: number;
  readonly [key: string]: unknown;
}

const SWAPPED: Readonly<Record<string, readonly string[]>> = {
  ...{ "+": ["-"], "-": ["+"], "*": ["/"], "/": ["*"], "%": ["*"], "&": ["|"], "|": ["&"], "<<": [">>"], ">>": ["<<"] },
  ...{ "<": ["<=", ">="], "<=": ["<", ">"], ">": [">=", "<="], ">=": [">", "<"] },
  ...{ "===": ["!=="], "!==": ["==="], "==": ["!="], "!=": ["=="], "&&": ["||"], "||": ["&&"], "??": ["&&"] },
  ...{ "+=": ["-="], "-=": ["+="], "*=": ["/="], "/=": ["*="], "??=": ["&&="], "||=": ["&&="], "++": ["--"], "--": ["++"] },
};
const OTHER_METHOD: Readonly<Record<string, string>> = {
  ...{ some: "every", every: "some", min: "max", max: "min", floor: "ceil", ceil: "floor", startsWith: "endsWith" },
  ...{ endsWith: "startsWith", toUpperCase: "toLowerCase", toLowerCase: "toUpperCase", trimStart: "trimEnd" },
};
const LEFT_OUT = new Set(["filter", "sort", "toSorted", "reverse", "toReversed", "slice", "trim", "substring", "concat"]);
const COMPARES = new Set(["<", "<=", ">", ">=", "===", "!==", "==", "!="]);
const LOOPS = new Set(["WhileStatement", "DoWhileStatement", "ForStatement", "ForOfStatement", "ForInStatement"]);
/** Names and types: a change there is none of behaviour, or does not build. */
const NOT_READ = new Set([
  "key",
  "typeAnnotation",
  "typeArguments",
  "typeParameters",
  "returnType",
  "source",
  "superTypeArguments",
]);

export function mutantsOf(
  text: string,
  file: string,
): { readonly mutants: readonly Mutant[]; readonly loops: readonly number[] } {
  const mutants: Mutant[] = [];
  const loops: number[] = [];
  const said = (node: Tree): string => text.slice(node.start, node.end);
  const isText = (node: Tree): boolean => node.type === "TemplateLiteral" || typeof node.value === "string";

  function put(at: Tree, becomes: string, chain: Tree | undefined, block = false): void {
    const around = chain ?? at;
    const whole = text.slice(around.start, at.start) + becomes + text.slice(at.end, around.end);
    if (becomes !== said(at))
      mutants.push({
        ...{ from: at.start, was: said(at), becomes, block },
        whole: { from: around.start, to: around.end, becomes: whole },
      });
  }

  function changes(node: Tree, chain: Tree | undefined): void {
    const to = (becomes: string) => put(node, becomes, chain);
    const [left, right, body] = [node.left, node.right, node.body] as (Tree | undefined)[];
    const operator = node.operator as string;
    switch (node.type) {
      case "BinaryExpression":
      case "LogicalExpression":
      case "AssignmentExpression":
        if (operator === "+" && (isText(left!) || isText(right!))) break;
        for (const other of SWAPPED[operator] ?? []) {
          const sign = text.indexOf(operator, left!.end);
          const [before, after] = [text.slice(node.start, sign), text.slice(sign + operator.length, node.end)];
          // `a ?? b && c` does not parse without its brackets, whichever way it came about.
          to(node.type === "LogicalExpression" ? `(${before.trim()}) ${other} (${after.trim()})` : before + other + after);
        }
        if (COMPARES.has(operator)) for (const always of ["true", "false"]) to(always);
        break;
      case "IfStatement":
      case "ConditionalExpression":
        if (!COMPARES.has((node.test as Tree).operator as string))
          for (const always of ["true", "false"]) put(node.test as Tree, always, undefined);
        break;
      case "UpdateExpression":
        to(said(node).replace(operator, SWAPPED[operator]![0]!));
        break;
      case "UnaryExpression":
        if (operator === "!" || operator === "-") to(said(node.argument as Tree));
        break;
      case "Literal":
        if (typeof node.value === "boolean") to(String(!node.value));
        if (typeof node.value === "string") to(node.value === "" ? '"changed"' : '""');
        if (node.regex) for (const other of [said(node).replace("/^", "/"), said(node).replace("$/", "/")]) to(other);
        break;
      case "TemplateLiteral":
        to("``");
        break;
      case "ArrayExpression":
        to((node.elements as Tree[]).length > 0 ? "[]" : '["changed"]');
        break;
      case "ObjectExpression":
        to("{}");
        break;
      case "BlockStatement":
        if ((body as unknown as Tree[]).length > 0) put(node, "{}", undefined, true);
        break;
      case "ArrowFunctionExpression":
        if (body!.type !== "BlockStatement") put(body!, "undefined", undefined);
        break;
      case "MemberExpression":
        if (node.optional) {
          const { end } = node.object as Tree;
          to(text.slice(node.start, end) + text.slice(end, node.end).replace("?.", node.computed ? "" : "."));
        }
        break;
      case "CallExpression": {
        const callee = node.callee as Tree;
        const name = callee.type === "MemberExpression" ? ((callee.property as Tree).name as string) : "";
        const after = text.slice(callee.end, node.end);
        if (LEFT_OUT.has(name)) to(text.slice(callee.start, (callee.property as Tree).start).replace(/\s*\??\.\s*$/, ""));
        const other = Object.hasOwn(OTHER_METHOD, name) && OTHER_METHOD[name];
        if (other) to(text.slice(callee.start, callee.end - name.length) + other + after);
      }
    }
  }

  /** `chain`: the whole expression of which `node` is a link. */
  function walk(node: Tree, chain?: Tree): void {
    const inner = node.type === "ChainExpression" ? node : chain;
    if (node.type.startsWith("TS") && !node.expression) return;
    if (node.directive || node.type === "ImportExpression" || node.type === "ImportDeclaration") return;
    if (LOOPS.has(node.type) && (node.body as Tree).type === "BlockStatement") loops.push((node.body as Tree).start + 1);
    changes(node, inner);
    for (const [key, value] of Object.entries(node)) {
      if (NOT_READ.has(key) && !(key === "key" && node.computed)) continue;
      if (node.type === "TaggedTemplateExpression" && key === "quasi") continue;
      const spine = ["object", "callee", "expression"].includes(key) ? inner : undefined;
      for (const child of Array.isArray(value) ? value : [value])
        if (child && typeof (child as Tree).type === "string") walk(child as Tree, spine);
    }
  }
  walk(parseAst(text, { lang: file.endsWith("x") ? "tsx" : "ts" }, file) as unknown as Tree);
  return { mutants, loops };
}

/** The text with every given mutant in it, each behind its number: `$trial` (trial.ts) says which one holds. */
export function switched(text: string, mutants: ReadonlyMap<number, Mutant>, loops: readonly number[]): string {
  interface Edit {
    readonly from: number;
    readonly to: number;
    readonly around: (inner: string) => string;
  }
  const edits: Edit[] = loops.map((at) => ({ from: at, to: at, around: () => "$trial.turn();" }));
  for (const [id, { whole, block }] of mutants)
    edits.push({
      ...whole,
      around: block
        ? (inner) => `{if(!$trial.holds(${id}))${inner}}`
        : (inner) => `($trial.holds(${id})?(${whole.becomes}):(${inner}))`,
    });
  edits.sort((a, b) => a.from - b.from || b.to - a.to);
  let next = 0;
  function written(from: number, to: number): string {
    let out = "";
    let at = from;
    while (next < edits.length && edits[next]!.from <= to && edits[next]!.to <= to) {
      const edit = edits[next]!;
      next += 1;
      out += text.slice(at, edit.from) + edit.around(written(edit.from, edit.to));
      at = edit.to;
    }
    return out + text.slice(at, to);
  }
  // What was worked out once and kept would hide a change, or keep one.
  return `const $trial=globalThis.$trial;${written(0, text.length)}`.replaceAll("new WeakMap", "new $trial.Forgetful");
}
