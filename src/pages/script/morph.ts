/**
 * Makes one element read like another, touching only what differs: what stays keeps its focus, its place and its unfolded parts.
 * Children are told apart by id; without one, by their place.
 */
export function morph(from: Element, to: Element): void {
  if (from.isEqualNode(to) && !isBox(from)) return;
  attributesLike(from, to);
  valueLike(from, to);
  const known = new Map([...from.children].flatMap((child) => (child.id ? [[child.id, child] as const] : [])));
  let at = from.firstChild;
  for (const wanted of [...to.childNodes]) {
    const mine = wanted instanceof Element && wanted.id ? known.get(wanted.id) : at && !idOf(at) ? at : undefined;
    if (mine instanceof Element && wanted instanceof Element && mine.tagName === wanted.tagName) {
      // Moving takes the focus: what is typed in stays, and what stands before it goes until it is wanted.
      while (at && at !== mine && mine.contains(document.activeElement)) at = without(at);
      if (mine === at) at = at.nextSibling;
      else from.insertBefore(mine, at);
      morph(mine, wanted);
    } else if (mine instanceof Text && wanted instanceof Text && mine === at) {
      if (mine.data !== wanted.data) mine.data = wanted.data;
      at = at.nextSibling;
    } else from.insertBefore(document.importNode(wanted, true), at);
  }
  while (at) at = without(at);
}

function without(node: ChildNode): ChildNode | null {
  const next = node.nextSibling;
  node.remove();
  return next;
}

const idOf = (node: Node): string => (node instanceof Element ? node.id : "");

type Box = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement;
const isBox = (element: Element): element is Box => element.matches("input, textarea, select");

/** What the suggestions of a box have put on it stays. */
const SUGGESTS = /^(?:list|data-list|role|autocomplete|aria-(?:autocomplete|controls|expanded|activedescendant))$/;

function attributesLike(from: Element, to: Element): void {
  const own = (name: string) =>
    (from.hasAttribute("data-list") && SUGGESTS.test(name)) || (from instanceof HTMLDetailsElement && name === "open");
  for (const { name } of [...from.attributes]) if (!to.hasAttribute(name) && !own(name)) from.removeAttribute(name);
  for (const { name, value } of to.attributes)
    if (from.getAttribute(name) !== value && !own(name)) from.setAttribute(name, value);
}

function valueLike(from: Element, to: Element): void {
  if (from instanceof HTMLInputElement && from.type === "checkbox") from.checked = to.hasAttribute("checked");
  else if (from instanceof HTMLInputElement && from.value !== (to.getAttribute("value") ?? ""))
    from.value = to.getAttribute("value") ?? "";
  else if (from instanceof HTMLTextAreaElement && to instanceof HTMLTextAreaElement && from.value !== to.value)
    from.value = to.value;
}
