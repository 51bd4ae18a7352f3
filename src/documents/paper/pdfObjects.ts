/** What our papers use of pdf-lib, for the edge (`wrangler.toml`): its index brings readers of PDF, PNG and forms along, a fifth of the program. */

export { default as PDFHexString } from "pdf-lib/es/core/objects/PDFHexString.js";
export { default as PDFObject } from "pdf-lib/es/core/objects/PDFObject.js";
export { default as PDFRawStream } from "pdf-lib/es/core/objects/PDFRawStream.js";
export { default as PDFString } from "pdf-lib/es/core/objects/PDFString.js";
export { default as PDFContext } from "pdf-lib/es/core/PDFContext.js";
export { default as PDFWriter } from "pdf-lib/es/core/writers/PDFWriter.js";
