/** Insulation that is not made for where a cable lies, or for the voltage on it. */
import type { Answers } from '../answers/answers.ts';
import type { Location, Model, Part, Run } from '../model/model.ts';
import { exceeds } from './exceeds.ts';
import { lampSpec } from './language.ts';
import type { Reported, Rule, RuleContext } from './rule.ts';
import { temperature, volts } from './words.ts';

const outside = 'place YARD outdoors';

export const rule: Rule = {
  slug: 'insulation-for-place',
  severity: 'warning',
  group: 'cable',
  reads: [
    'panel.voc',
    'run.insulation-voltage',
    'run.outdoors',
    'run.along',
    'run.insulation',
    'run.method',
    'run.sheathed',
    'cable.insulation-voltage',
    'cable.outdoors',
    'place.exposure',
    'place.temperature',
  ],
  page: {
    title: 'Insulation that does not suit its place',
    why: 'Sun and frost make ordinary insulation brittle within a few years: it cracks where it is bent, and water does the rest. Above its rated voltage insulation may break down at its thinnest spot.',
    limit:
      'Cables stand the influences of their place: sun (IEC 60364-5-52 clause 522.11) and warmth (clause 522.1), both from memory; and the rated voltage that their maker states is not below that of their circuit, on the panel side that of the panels in the greatest cold without a load (common practice, no source). That a cable out of doors is not said to be made for it is advice only. Cables too warm for what they carry are told of as `cable-too-small`.',
    mend: 'Use cable that is made for it and say so (`outdoors`, `600 V`), or lead it in conduit.',
    see: ['cable-too-small', 'box-ip-for-place'],
    wrong: [
      lampSpec({
        system: 'system "Shed" 24 V',
        battery: 'battery B1 lead-acid, 24 V, 80 Ah, internal 30 mΩ',
        out: 'run W2 1.5 mm² red, 12 V, 1.2 m, F1:out to LAMP:+ # finds: insulation-for-place "12 V"',
      }),
      lampSpec(
        { out: 'run W2 1.5 mm² red, 1.2 m, along YARD, F1:out to LAMP:+ # finds: insulation-for-place "YARD"' },
        outside,
      ),
      lampSpec(
        {
          out: 'run W2 ? mm² red, 1.2 m, along OVEN, F1:out to LAMP:+ # finds: blank-unfilled "? mm²"; insulation-for-place "OVEN"',
        },
        'place OVEN 80 °C',
      ),
    ],
    right: [
      lampSpec({ out: 'run W2 1.5 mm² red, 60 V, 1.2 m, F1:out to LAMP:+' }),
      lampSpec({ out: 'run W2 1.5 mm² red, outdoors, 1.2 m, along YARD, F1:out to LAMP:+' }, outside),
      lampSpec({ out: 'run W2 1.5 mm² red, 1.2 m, along YARD, in conduit, F1:out to LAMP:+' }, outside),
    ],
  },
  *check(context) {
    const { model, answers } = context;
    for (const run of model.runs.values()) {
      if (run.insulationVolts !== undefined) yield* voltage(run, run.insulationVolts, answers);
      if (run.along.length === 0) continue;
      const found = [...warmth(run, context), ...weather(run, model)];
      if (found.length === 0) continue;
      // Of a stock that is not there nobody knows what it says.
      const stock = run.facts.word('stock');
      if (stock === undefined || model.stocks.has(stock)) yield* found;
    }
  },
};

function voltage(run: Run, insulationVolts: number, answers: Answers): Reported[] {
  const greatest = circuitVolts(run, answers);
  if (!exceeds(greatest, insulationVolts)) return [];
  return [
    {
      message: `The insulation of ${run.name} is for ${volts(insulationVolts)}, and its circuit has ${volts(greatest)}: use cable for more.`,
      place: run.facts.place('insulation-voltage'),
      subject: run.name,
      figures: { ratedVolts: insulationVolts, circuitVolts: greatest },
    },
  ];
}

/** The greatest that any case brings to its ends; of panels what they reach in the cold without a load. */
function circuitVolts({ cores }: Run, { cases, cores: figures, network, strings }: Answers): number {
  let greatest = 0;
  for (const { from, to } of cores)
    for (const end of [from, to])
      if (end !== undefined) for (const one of cases) greatest = Math.max(greatest, Math.abs(one.voltsAt(end) ?? 0));
  const onPanelSide = cores.filter((core) => figures.get(core)?.onPanelSide);
  if (onPanelSide.length === 0) return greatest;
  const islands = new Set(onPanelSide.map(({ from, to }) => network.layout.islandOf.get((from ?? to)?.id ?? '')));
  const isHere = (part: Part) => part.terminals.some(({ id }) => islands.has(network.layout.islandOf.get(id)));
  const panels = strings.strings.filter((one) => one.panels.some(isHere)).map((one) => one.coldVolts ?? one.openVolts);
  return Math.max(greatest, ...panels);
}

/** What of a place a run is not made for, once it is said to lie there. */
export function unfitFor(run: Run, location: Location, { answers }: RuleContext): 'weather' | 'warmth' | undefined {
  if (isOutside(location) && !isForWeather(run)) return 'weather';
  return isTooWarm(run, location, answers) ? 'warmth' : undefined;
}

const isForWeather = (run: Run): boolean => run.facts.says('outdoors') || run.facts.says('sheathed') || run.inConduit;

function isTooWarm(run: Run, location: Location | undefined, answers: Answers): boolean {
  if ((answers.runs.get(run) ?? []).some(({ capacity }) => capacity !== undefined)) return false;
  return (location?.celsius ?? Number.NEGATIVE_INFINITY) >= (run.insulationCelsius ?? 70);
}

/** Where it carries a known current this is a matter of its capacity, and told of there. */
function warmth(run: Run, { model, answers }: RuleContext): Reported[] {
  const insulation = run.insulationCelsius ?? 70;
  const warm = run.along.find(({ location }) => isTooWarm(run, location, answers));
  if (warm?.location?.celsius === undefined) return [];
  return [
    {
      message: `${run.name} lies in ${warm.location.name} at ${temperature(warm.location.celsius, model)}, and its insulation is ${run.insulationCelsius === undefined ? 'taken to be ' : ''}for ${temperature(insulation, model)}: use better insulation or a cooler way.`,
      place: warm.place,
      subject: run.name,
      figures: { celsius: warm.location.celsius, insulationCelsius: insulation },
    },
  ];
}

function weather(run: Run, model: Model): Reported[] {
  const along = run.along.find(({ location }) => isOutside(location));
  if (along?.location === undefined || !model.runs.has(run.name)) return [];
  if (isForWeather(run)) return [];
  return [
    {
      severity: 'advice',
      message: `${run.name} lies in ${along.location.name}, out of doors, and is not said to be made for sun and weather: take cable that is and say \`outdoors\`, or lead it in conduit.`,
      place: along.place,
      subject: run.name,
      figures: { place: along.location.name },
    },
  ];
}

function isOutside(location: Location | undefined): boolean {
  return location?.outdoors === true;
}
