/** One mistake in the spec of one lamp: the words it is made at, what is put there, and the one finding that tells of it. */
export interface Mistake {
  readonly what: string;
  /** Lines that the spec has besides. */
  readonly add?: string;
  readonly find: string;
  readonly put: string;
  readonly slug: string;
  /** The words it stands at. */
  readonly at: string;
  readonly message: string;
}
