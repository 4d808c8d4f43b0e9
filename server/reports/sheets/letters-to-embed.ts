/** The typeface that pictures are exported in, as files: whoever calls reads them, since nothing here knows of a disk. */
export interface EmbeddedLetters {
  /** DejaVu Sans and its bold, as TrueType. */
  readonly regular: Uint8Array;
  readonly bold: Uint8Array;
}
