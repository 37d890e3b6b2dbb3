/** Stands in for Ink's optional developer tools, so that the bundle carries and opens none of them. */
export const connectToDevTools = (): void => {};
// biome-ignore lint/style/noDefaultExport: Ink imports the tools as a default.
export default { connectToDevTools, initialize: (): void => {} };
