/** Photos in a bucket of the edge (Workers R2 binding). */
import { type PhotoStore, photoName } from "./photoStore.js";

/** What is used of the binding. */
export interface Bucket {
  readonly put: (key: string, value: Uint8Array, options: { httpMetadata: { contentType: string } }) => Promise<unknown>;
  readonly get: (key: string) => Promise<{ arrayBuffer: () => Promise<ArrayBuffer> } | null>;
  readonly delete: (key: string) => Promise<unknown>;
}

export function photoBucket(bucket: Bucket): PhotoStore {
  const key = (id: string) => `photos/${photoName(id)}`;
  return {
    put: async (id, bytes, mime) => {
      await bucket.put(key(id), bytes, { httpMetadata: { contentType: mime } });
    },
    get: async (id) => {
      const found = await bucket.get(key(id));
      return found ? new Uint8Array(await found.arrayBuffer()) : undefined;
    },
    remove: async (id) => {
      await bucket.delete(key(id));
    },
  };
}
