/** Parts and runs that write down which clauses they are asked about. */
import type { Core, Facts, Location, Part, Run } from '../../server/model/model.ts';

/** What the fields of a run, a core and a place are made from. */
const runFields: Readonly<Record<string, readonly string[]>> = {
  size: ['size'],
  sizeBlank: ['size'],
  sizePlace: ['size'],
  lengthMetres: ['length'],
  passages: ['enters'],
  along: ['along'],
  conductorClass: ['class'],
  solid: ['class', 'strands'],
  tinned: ['coating'],
  material: ['material'],
  insulationCelsius: ['insulation'],
  insulationVolts: ['insulation-voltage'],
  bunchedWith: ['bunched'],
  bunchedRuns: ['bunched'],
  inConduit: ['method'],
  outerDiameterMm: ['od'],
};
const coreFields: Readonly<Record<string, readonly string[]>> = {
  from: ['ends'],
  to: ['ends'],
  fromPlace: ['ends'],
  toPlace: ['ends'],
  colour: ['colour'],
  colourPlace: ['colour'],
  spare: ['spare'],
};
const placeFields: Readonly<Record<string, readonly string[]>> = {
  celsius: ['temperature'],
  outdoors: ['exposure'],
  engineSpace: ['engine-space'],
};
const partFields: Readonly<Record<string, readonly string[]>> = { enclosure: ['in'], location: ['at'] };

type Field = (value: never) => unknown;

export class Recorder {
  /** `breaker.voltage`, `run.size`, `place.exposure`. */
  readonly asked = new Set<string>();
  private readonly seen = new WeakMap<object, object>();

  part = (part: Part): Part =>
    this.recording(part, part.kind.word, partFields, {
      facts: (facts: Facts) => this.facts(facts, part.kind.word),
      enclosure: this.part,
      location: this.place,
    });

  run = (run: Run): Run =>
    this.recording(run, 'run', runFields, {
      facts: (facts: Facts) => this.facts(facts, 'run'),
      cores: (cores: Run['cores']) => cores.map(this.core),
      passages: (passages: Run['passages']) =>
        passages.map((passage) => this.recording(passage, 'run', {}, { enclosure: this.part, entry: this.part })),
      along: (along: Run['along']) => along.map((one) => this.recording(one, 'run', {}, { location: this.place })),
    });

  private readonly core = (core: Core): Core =>
    this.recording(core, 'run', coreFields, { run: this.run, from: this.terminal, to: this.terminal });

  private readonly terminal = <T extends object>(terminal: T): T =>
    this.recording(terminal, '', {}, { part: this.part });

  private readonly place = (place: Location): Location =>
    this.recording(place, 'place', placeFields, { facts: (facts: Facts) => this.facts(facts, 'place') });

  private facts(facts: Facts, word: string): Facts {
    return this.known(
      facts,
      () =>
        new Proxy(facts, {
          get: (target, field) => {
            const value: unknown = Reflect.get(target, field);
            if (typeof value !== 'function') return value;
            return (clause: string, ...more: unknown[]) => {
              this.asked.add(`${word}.${clause}`);
              const answer: unknown = value.call(target, clause, ...more);
              return field === 'each' ? (answer as Facts[]).map((one) => this.facts(one, word)) : answer;
            };
          },
        }),
    );
  }

  private recording<T extends object>(
    one: T,
    word: string,
    clauses: Readonly<Record<string, readonly string[]>>,
    fields: Readonly<Record<string, Field>>,
  ): T {
    return this.known(
      one,
      () =>
        new Proxy(one, {
          get: (target, field) => {
            for (const clause of clauses[String(field)] ?? []) this.asked.add(`${word}.${clause}`);
            const value: unknown = Reflect.get(target, field);
            const wrap = fields[String(field)];
            return value === undefined || wrap === undefined ? value : wrap(value as never);
          },
        }),
    );
  }

  /** The same for the same, since rules compare. */
  private known<T extends object>(one: T, make: () => T): T {
    let recording = this.seen.get(one) as T | undefined;
    if (recording === undefined) {
      recording = make();
      this.seen.set(one, recording);
    }
    return recording;
  }
}
