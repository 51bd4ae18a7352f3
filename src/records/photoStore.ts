/** Where the bytes of photos are kept: a folder beside the database file, or a bucket on the edge. Names are ids of photos. */
export interface PhotoStore {
  /** Once it is done, the bytes may be written over. */
  readonly put: (id: string, bytes: Uint8Array, mime: string) => Promise<void>;
  readonly get: (id: string) => Promise<Uint8Array | undefined>;
  /** Also where there is none. */
  readonly remove: (id: string) => Promise<void>;
  /** Why the last picture could not be kept, where the place is at fault; undefined once one could. */
  readonly trouble?: () => string | undefined;
}

const ID = /^[\w-]{1,100}$/;

/** An id never leads out of the folder, nor to another kind of object in the bucket. */
export function photoName(id: string): string {
  if (!ID.test(id)) throw new Error("A photo's id is made of letters, digits and dashes.");
  return id;
}
