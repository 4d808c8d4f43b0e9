/** One mistake in the sample: what it is, the words it is made at and what is put there, and the one finding of the language that tells of it. */
export type Breakage = readonly [
  what: string,
  find: string,
  put: string,
  slug: string,
  /** The words it stands at. */
  at: string,
  message: string,
];

export type Harmless = readonly [what: string, find: string, put: string];
