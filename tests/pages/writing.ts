/** With README=write what is generated is written into the pages instead of compared with them. */
export const writing: boolean = process.env.README === "write";
