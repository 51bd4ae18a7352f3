/** What is dear to make and asked for again and again, by the text it is made of: a locale or zone comes from outside, so all is let go beyond `most`. */
export function keeping<T>(most: number): (key: string, make: () => T) => T {
  const kept = new Map<string, T>();
  return (key, make) => {
    const found = kept.get(key);
    if (found !== undefined) return found;
    if (kept.size >= most) kept.clear();
    const made = make();
    kept.set(key, made);
    return made;
  };
}
