/** On the edge, in place of the compression that pdf-lib brings (wrangler.toml): what our papers hold is compressed when the project is built, or by the runtime. */
export default {
  deflate: (): never => {
    throw new Error("The documents compress nothing through pdf-lib.");
  },
};
