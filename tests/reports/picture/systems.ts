/** Wiring systems of any size, as text: made of the pieces vans have, the same from the same seed. */

/** Numbers from 0 to 1, the same from the same seed. */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

class Writer {
  readonly lines: string[] = [];
  parts = 0;
  private runs = 0;
  private readonly counts = new Map<string, number>();

  constructor(readonly random: () => number) {}

  name(letter: string): string {
    const count = (this.counts.get(letter) ?? 0) + 1;
    this.counts.set(letter, count);
    return `${letter}${count}`;
  }

  chance(of: number): boolean {
    return this.random() < of;
  }

  oneOf<T>(list: readonly T[]): T {
    return list[Math.floor(this.random() * list.length)] as T;
  }

  part(letter: string, word: string, says: string, box?: string): string {
    const name = this.name(letter);
    this.parts += 1;
    const title = this.chance(0.3) ? ` "${this.oneOf(['Front', 'Rear', 'Left', 'Right', 'Second'])} ${word}"` : '';
    this.lines.push(`${word} ${name}${title} ${says}${box === undefined ? '' : `, in ${box}`}`);
    return name;
  }

  run(from: string, to: string, colour: string, size = this.oneOf([1.5, 2.5, 4, 6, 10, 16])): void {
    this.runs += 1;
    this.lines.push(`run W${this.runs} ${size} mm² ${colour}, ${this.metres()} m, ${from} to ${to}`);
  }

  /** A cable of two cores. */
  pair(plus: readonly [string, string], minus: readonly [string, string], enters?: string): void {
    this.runs += 1;
    this.lines.push(`run W${this.runs} 2 x ${this.oneOf([1.5, 2.5, 4])} mm², ${this.metres()} m`);
    if (enters !== undefined) this.lines.push(`    enters ${enters} by gland M20`);
    this.lines.push(`    red    ${plus[0]} to ${plus[1]}`, `    black  ${minus[0]} to ${minus[1]}`);
  }

  private metres(): string {
    return (0.2 + this.random() * 6).toFixed(1);
  }
}

/** About as many parts as asked; at least five. */
export function systemOf(parts: number, seed: number): string {
  const writer = new Writer(randomFrom(seed));
  writer.lines.push(`system "System ${seed}" 12 V`, '');
  const [plus, minus] = bank(writer, parts);
  if (parts > 12 && writer.chance(0.7)) sun(writer, plus, minus);
  if (parts > 20 && writer.chance(0.5)) engine(writer, plus, minus);
  while (writer.parts < parts) {
    const left = parts - writer.parts;
    if (left > 8 && writer.chance(0.5)) locker(writer, plus, minus, Math.min(8, Math.floor(left / 2)));
    else if (left > 4 && writer.chance(0.2)) relayed(writer, plus, minus);
    else circuit(writer, plus, minus, left);
  }
  return `${writer.lines.join('\n')}\n`;
}

function bank(writer: Writer, parts: number): readonly [string, string] {
  const battery = writer.part('B', 'battery', 'agm, 12 V, 100 Ah');
  const fuse = writer.part('F', 'fuse', '100 A');
  const positive = writer.part('POS', 'busbar', '200 A');
  const negative = writer.part('NEG', 'busbar', '200 A');
  writer.run(`${battery}:+`, `${fuse}:in`, 'red', 35);
  if (parts > 8) {
    const isolator = writer.part('Q', 'isolator', '1 pole, 200 A dc, 60 V');
    writer.run(`${fuse}:out`, `${isolator}:1`, 'red', 35);
    writer.run(`${isolator}:2`, positive, 'red', 35);
    const shunt = writer.part('SH', 'shunt', '150 A');
    writer.run(`${battery}:-`, `${shunt}:battery`, 'black', 35);
    writer.run(`${shunt}:load`, negative, 'black', 35);
    const ground = writer.part('G', 'chassis', '');
    writer.run(negative, ground, 'black', 16);
  } else {
    writer.run(`${fuse}:out`, positive, 'red', 35);
    writer.run(`${battery}:-`, negative, 'black', 35);
  }
  return [positive, negative];
}

function sun(writer: Writer, plus: string, minus: string): void {
  const box = `ROOF-BOX${writer.name('').slice(0)}`;
  writer.lines.push(`enclosure ${box} plastic, IP65`);
  const panels = Array.from({ length: 1 + Math.floor(writer.random() * 3) }, () =>
    writer.part('P', 'panel', '120 W, voc 23 V, isc 6.9 A, vmp 19.2 V, imp 6.3 A'),
  );
  const isolator = writer.part('Q', 'isolator', '2 poles, 25 A dc, 150 V', box);
  const controller = writer.part('U', 'controller', 'mppt, pv 100 V 30 A, output 20 A, common negative');
  panels.forEach((panel, i) => {
    const before = panels[i - 1];
    // In series.
    if (before !== undefined) writer.run(`${before}:-`, `${panel}:+`, 'black', 6);
  });
  writer.run(`${panels[0]}:+`, `${isolator}:1`, 'red', 6);
  writer.run(`${panels.at(-1)}:-`, `${isolator}:3`, 'black', 6);
  writer.pair([`${isolator}:2`, `${controller}:pv+`], [`${isolator}:4`, `${controller}:pv-`], box);
  const fuse = writer.part('F', 'fuse', '30 A');
  writer.run(`${controller}:bat+`, `${fuse}:out`, 'red', 6);
  writer.run(plus, `${fuse}:in`, 'red', 6);
  writer.run(`${controller}:bat-`, minus, 'black', 6);
}

function engine(writer: Writer, plus: string, minus: string): void {
  const alternator = writer.part('A', 'alternator', '14.2 V, 70 A, fixed');
  const starter = writer.part('B', 'battery', 'lead-acid, 12 V, 80 Ah');
  const ground = writer.part('G', 'chassis', '');
  const charger = writer.part('U', 'charger', '12 V, 18 A, common negative');
  const first = writer.part('F', 'fuse', '30 A');
  const second = writer.part('F', 'fuse', '30 A');
  writer.run(`${alternator}:+`, `${starter}:+`, 'red', 25);
  writer.run(`${alternator}:-`, ground, 'black', 25);
  writer.run(`${starter}:-`, ground, 'black', 25);
  writer.run(`${starter}:+`, `${first}:in`, 'red', 10);
  writer.run(`${first}:out`, `${charger}:in+`, 'red', 10);
  writer.run(`${charger}:in-`, minus, 'black', 10);
  writer.run(`${charger}:out+`, `${second}:out`, 'red', 10);
  writer.run(plus, `${second}:in`, 'red', 10);
  writer.run(`${charger}:out-`, minus, 'black', 10);
}

const appliances: readonly (readonly [string, string])[] = [
  ['LAMP', '12 W'],
  ['PUMP', '60 W'],
  ['FAN', '24 W'],
  ['FRIDGE', '45 W'],
  ['HEATER', '90 W'],
  ['RADIO', '15 W'],
];

function appliance(writer: Writer): string {
  const [name, takes] = writer.oneOf(appliances);
  return writer.chance(0.2) ? writer.part('X', 'socket', '15 A') : writer.part(name, 'load', takes);
}

/** A fuse, now and then a switch or a connector, and a load. */
function circuit(writer: Writer, plus: string, minus: string, left: number): void {
  const fuse = writer.part('F', 'fuse', writer.oneOf(['5 A', '10 A', '15 A']));
  writer.run(plus, `${fuse}:in`, 'red');
  let from = `${fuse}:out`;
  if (left > 3 && writer.chance(0.4)) {
    const hand = writer.part('S', 'switch', '1 pole, 10 A dc, 24 V');
    writer.run(from, `${hand}:1`, 'red');
    from = `${hand}:2`;
  }
  const load = appliance(writer);
  if (left > 4 && writer.chance(0.2)) {
    const plug = writer.part('J', 'connector', '2 pins, 20 A');
    writer.pair([from, `${plug}:1`], [minus, `${plug}:2`]);
    writer.pair([`${plug}:1`, `${load}:+`], [`${plug}:2`, `${load}:-`]);
  } else writer.pair([from, `${load}:+`], [minus, `${load}:-`]);
}

function relayed(writer: Writer, plus: string, minus: string): void {
  const fuse = writer.part('F', 'fuse', '20 A');
  const relay = writer.part('K', 'relay', 'coil 12 V, contact 40 A');
  const hand = writer.part('S', 'switch', '1 pole, 10 A dc, 24 V');
  const load = appliance(writer);
  writer.run(plus, `${fuse}:in`, 'red');
  writer.run(`${fuse}:out`, `${relay}:30`, 'red');
  writer.run(`${fuse}:out`, `${hand}:1`, 'red', 1.5);
  writer.run(`${hand}:2`, `${relay}:86`, 'blue', 1.5);
  writer.run(`${relay}:85`, minus, 'black', 1.5);
  writer.run(`${relay}:87`, `${load}:+`, 'red');
  writer.run(`${load}:-`, minus, 'black');
}

/** A fuse-board in a box with its circuits. */
function locker(writer: Writer, plus: string, minus: string, ways: number): void {
  const box = writer.name('BOX');
  writer.lines.push(`enclosure ${box} plastic, IP44`);
  const board = writer.part('FB', 'fusebox', `${ways} ways, ways 1 to ${ways} fuse 10 A`, box);
  const bar = writer.part('NEG', 'busbar', '60 A', box);
  const feed = writer.part('F', 'fuse', '50 A');
  writer.run(plus, `${feed}:in`, 'red', 16);
  writer.run(`${feed}:out`, `${board}:in`, 'red', 16);
  writer.run(minus, bar, 'black', 16);
  for (let way = 1; way <= ways - 2; way += 1) {
    let from = `${board}:${way}`;
    if (writer.chance(0.3)) {
      const hand = writer.part('S', 'switch', '1 pole, 10 A dc, 24 V', writer.chance(0.3) ? box : undefined);
      writer.run(from, `${hand}:1`, 'red');
      from = `${hand}:2`;
    }
    const load = appliance(writer);
    writer.pair([from, `${load}:+`], [bar, `${load}:-`], box);
  }
}
