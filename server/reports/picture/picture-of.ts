/** What a spec's wiring diagram has to show. It says nothing of where. */

import { colours } from '../../kinds/colours.ts';
import type { Core, Location, Model, Part, Passage, Run } from '../../model/model.ts';
import { isFuseSaid } from '../way-fuse.ts';
import { marksOf } from './marks.ts';
import { plainText } from './plain-text.ts';
import { ratingsOf } from './ratings.ts';
import type {
  PictureCable,
  PictureContact,
  PictureCore,
  PictureGroup,
  PictureOf,
  PictureOptions,
  PicturePart,
  PicturePassage,
} from './scene.ts';
import { sourcesOf } from './sources.ts';

export const pictureOf: PictureOf = (analysis, options = {}) => {
  const { model, answers } = analysis;
  const only = options.only === undefined ? undefined : nearTo(model, options.only);
  const ordinals = ordinalsOf(model);
  const shown = [...model.parts.values()].filter((part) => isDrawn(part) && (only?.parts.has(part) ?? true));
  const groups = groupsOf(shown, options, ordinals);
  const parts = shown.map((part) => pictured(part, model, options, ordinals));
  const runs = [...model.runs.values()].filter((run) => only === undefined || run.cores.some((core) => only.has(core)));
  const cores = runs.flatMap((run) =>
    run.cores.flatMap((core): PictureCore[] => {
      if (core.from === undefined || core.to === undefined || !(only?.has(core) ?? true)) return [];
      return [coreOf(core, core.from.id, core.to.id, answers.polarities.ofCore(core))];
    }),
  );
  const cables = runs.map((run) => cableOf(run, ordinals));
  const sources = sourcesOf(model);
  const drawn = new Set([...parts.map(({ name }) => `part:${name}`), ...cores.map(({ id }) => id)]);
  for (const { id } of groups) drawn.add(id);
  return {
    title: plainText(model.system.title ?? ''),
    parts,
    cores,
    cables,
    groups,
    // Where some parts are asked for, what is found about the others is not about this sheet.
    marks: marksOf(analysis, drawn).filter(({ element }) => only === undefined || element !== ''),
    sources,
  };
};

export const coreId = ({ run, index }: Core): string => `core:${run.name}/${index}`;

/** Boxes and the ways through their walls are drawn round the others. */
export const isDrawn = ({ kind }: Part): boolean => kind.family !== 'enclosure';

const said = (text: string | undefined): string | undefined => {
  const plain = plainText(text ?? '');
  return plain === '' ? undefined : plain;
};

function pictured(
  part: Part,
  model: Model,
  options: PictureOptions,
  ordinals: ReadonlyMap<string, number>,
): PicturePart {
  const { name, kind, facts, contacts, terminals } = part;
  const numbers = (slot: string) => facts.numbers('face', slot).map(String);
  return {
    name,
    title: said(part.title),
    kindWord: kind.word,
    family: kind.family,
    symbol: kind.symbol,
    ratings: ratingsOf(part).map(plainText),
    terminals: terminals.map(({ id, spec }) => ({
      id,
      name: spec.name,
      polarity: spec.polarity,
      meaning: spec.meaning,
    })),
    contacts: contacts.map(
      ({ from, to, pole, operated, protects, deviceAmps }): PictureContact => ({
        from,
        to,
        pole,
        operated,
        protects,
        rating:
          !protects || !isFuseSaid(part, pole)
            ? ''
            : deviceAmps === undefined
              ? '? A'
              : `${Number(deviceAmps.toPrecision(6))} A`,
      }),
    ),
    links: model.bars.flatMap((bar) =>
      bar.part === part ? [[bar.from.spec.name, bar.to.spec.name] satisfies [string, string]] : [],
    ),
    face: facts.says('face') ? { top: numbers('top'), bottom: numbers('bottom') } : undefined,
    oneNode: kind.oneNode,
    group: groupOf(part, options),
    ordinal: ordinals.get(name) ?? 0,
  };
}

/** The order of parts among parts and of runs among runs, over all files. */
function ordinalsOf({ parts, runs }: Model): Map<string, number> {
  return new Map([parts, runs].flatMap((named) => [...named.keys()].map((name, index) => [name, index] as const)));
}

function groupOf({ enclosure, location }: Part, { places = false }: PictureOptions): string | undefined {
  if (enclosure !== undefined) return `enclosure:${enclosure.name}`;
  return places && location !== undefined ? `place:${location.name}` : undefined;
}

/** Enclosures that hold something, and the places asked for. */
function groupsOf(
  shown: readonly Part[],
  options: PictureOptions,
  ordinals: ReadonlyMap<string, number>,
): PictureGroup[] {
  const groups = new Map<string, PictureGroup>();
  const addPlace = (location: Location | undefined) => {
    if (location === undefined || options.places !== true) return;
    const { name, celsius, title } = location;
    const note = celsius === undefined ? '' : `${Number(celsius.toFixed(1))} °C`;
    const id = `place:${name}`;
    if (!groups.has(id))
      groups.set(id, { id, is: 'place', name, title: said(title), note, parent: undefined, ordinal: 0 });
  };
  for (const part of shown) {
    let box = part.enclosure;
    if (box === undefined) addPlace(part.location);
    for (const seen = new Set<Part>(); box !== undefined && !seen.has(box); box = box.enclosure) {
      seen.add(box);
      const { name, title, facts } = box;
      const id = `enclosure:${name}`;
      if (groups.has(id)) break;
      const note = ['material', 'ip']
        .flatMap((clause) => facts.written(clause) ?? [])
        .map(plainText)
        .join(', ');
      groups.set(id, {
        id,
        is: 'enclosure',
        name,
        title: said(title),
        note,
        parent: groupOf(box, options),
        ordinal: ordinals.get(name) ?? 0,
      });
      if (box.enclosure === undefined) addPlace(box.location);
    }
  }
  return [...groups.values()];
}

function coreOf(core: Core, from: string, to: string, polarity: PictureCore['polarity']): PictureCore {
  const { run, index, colour } = core;
  const tones = (colour ?? '').split('/').flatMap((word) => colours.get(word) ?? []);
  const code = tones.map((tone) => tone.code).join('');
  const isCable = run.cores.length > 1;
  const id = isCable && code === '' ? `${run.name} ${index + 1}` : run.name;
  return {
    id: coreId(core),
    run: run.name,
    index,
    colourWord: colour,
    colourCode: code,
    colours: tones.map(({ css }) => css),
    polarity,
    weight: weightOf(run),
    from,
    to,
    label: [code === '' ? id : `${id} ${code}`, [sizeText(run), lengthText(run)].filter(Boolean).join(' ')],
    passages: run.passages.flatMap(passageOf),
  };
}

function passageOf({ enclosure, how, size, entry }: Passage): PicturePassage[] {
  if (enclosure === undefined) return [];
  return [{ enclosure: enclosure.name, how, label: plainText(entry?.name ?? size ?? '') }];
}

function sizeText({ size, sizeBlank, cores }: Run): string {
  const one = size?.written ?? (sizeBlank ? '?' : '');
  return one === '' || cores.length < 2 ? one : `${cores.length} × ${one}`;
}

function weightOf({ size }: Run): PictureCore['weight'] {
  if (size === undefined) return 1;
  const [medium, heavy] =
    size.system === 'mm2' ? [size.areaMm2 >= 6, size.areaMm2 >= 25] : [size.gauge <= 10, size.gauge <= 3];
  return heavy ? 3 : medium ? 2 : 1;
}

/** As written, so that feet stay feet. */
function lengthText({ facts }: Run): string {
  return plainText(facts.written('length') ?? '');
}

function cableOf(run: Run, ordinals: ReadonlyMap<string, number>): PictureCable {
  const undrawn = run.cores.flatMap(({ label, spare, from, to }) => {
    if (spare) return [`${label}: spare`];
    if (from !== undefined && to !== undefined) return [];
    const known = from ?? to;
    return [known === undefined ? `${label}: no end is known` : `${label}: leaves ${known.id}, other end not known`];
  });
  return {
    id: `cable:${run.name}`,
    name: run.name,
    title: said(run.title),
    size: sizeText(run),
    length: lengthText(run),
    cores: run.cores.filter(({ from, to }) => from !== undefined && to !== undefined).map(coreId),
    undrawn: undrawn.map(plainText),
    ordinal: ordinals.get(run.name) ?? 0,
  };
}

/** Named parts, the cores at them, and the parts those lead to. */
function nearTo(model: Model, names: readonly string[]): { readonly parts: Set<Part>; has(core: Core): boolean } {
  const wanted = new Set(names.flatMap((name) => model.parts.get(name) ?? []));
  const isWanted = (part: Part | undefined) =>
    part !== undefined && (wanted.has(part) || (part.enclosure !== undefined && wanted.has(part.enclosure)));
  const has = ({ from, to, run }: Core) => isWanted(from?.part) || isWanted(to?.part) || names.includes(run.name);
  const parts = new Set([...model.parts.values()].filter(isWanted));
  for (const run of model.runs.values())
    for (const core of run.cores)
      if (has(core)) for (const end of [core.from, core.to]) if (end !== undefined) parts.add(end.part);
  return { parts, has };
}
