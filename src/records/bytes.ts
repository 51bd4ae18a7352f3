import { customType } from "drizzle-orm/sqlite-core";

/** drizzle's own blob wants Node's Buffer, which the edge lacks. */
export const bytes = customType<{ data: Uint8Array; driverData: Uint8Array | ArrayBuffer }>({
  dataType: () => "blob",
  fromDriver: (value) => new Uint8Array(value as ArrayBuffer),
});
