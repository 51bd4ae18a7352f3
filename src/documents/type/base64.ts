/** Standard base64 to bytes, on any runtime. */
export function fromBase64(text: string): Uint8Array {
  const characters = atob(text);
  const bytes = new Uint8Array(characters.length);
  for (let at = 0; at < bytes.length; at += 1) bytes[at] = characters.charCodeAt(at);
  return bytes;
}
