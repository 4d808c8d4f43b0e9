/** A spec that is bundled as text. */
declare module '*.amps' {
  const text: string;
  export default text;
}
