/** A spec of four groups that hang together and are joined by nothing. */
const head = [
  'system "Four sheds" 12 V',
  '    ambient 30 °C, coldest -10 °C',
  '    limits iec-60364-5-52',
  'place LOFT 55 °C, indoors',
  'stock feed cable 2.5 mm², class 5, insulation 90 °C, 1000 V',
  'case evening sun 0 %, charge 50 %, LAMP-1 and LAMP-2 on',
  'case alone charge 80 %, all loads on',
];

const shed = (n: number) => [
  `# ---- Shed ${n} ----`,
  `battery B-${n} lead-acid, 12 V, 80 Ah, internal 8 mΩ`,
  `fuse F-${n} 15 A, blade, 32 V, breaks 1 kA`,
  `isolator Q-${n} 1 pole, 30 A dc, 48 V, in BOX-${n}`,
  `enclosure BOX-${n} "Box" plastic, IP54, indoors, knockouts 2 x M20`,
  `load LAMP-${n} ${10 + n} W, lowest 11 V`,
  `run W-${n}1 = feed red, 0.2 m, B-${n}:+ to F-${n}:in`,
  `run W-${n}2 = feed red, 1 m, along LOFT, F-${n}:out to Q-${n}:1`,
  `run W-${n}3 = feed red, 4 m, along LOFT, Q-${n}:2 to LAMP-${n}:+`,
  `    bunched with W-${n}2`,
  `run W-${n}4 = feed black, 4 m, LAMP-${n}:- to B-${n}:-`,
];

/** Four sheds that share a head, what is stored, and cases. */
export const sheds = [
  ...head,
  ...[1, 2, 3, 4].flatMap(shed),
  'expect LAMP-2 voltage at least 11 V in evening',
  '',
].join('\n');
