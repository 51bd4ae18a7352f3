/** A web address as a PDF carries it: plain ASCII, nothing that ends a PDF string. Undefined for what is not one, such as a script. */
export function webAddress(text: string): string | undefined {
  if (!/^https?:\/\//i.test(text) || !URL.canParse(text)) return undefined;
  const { href } = new URL(text);
  return /^[!-~]+$/.test(href) ? href.replaceAll(/[()\\]/g, (sign) => `%${sign.charCodeAt(0).toString(16)}`) : undefined;
}
