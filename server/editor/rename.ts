/**
 * Rename: a part, run, place, stock, case or a load's own terminal, wherever it is named, in every file. What cannot be
 * renamed, or not to that name, is refused with a sentence that says why.
 */
import type { Range, WorkspaceEdit } from 'vscode-languageserver';
import { whyReserved } from '../../grammar/name-problems.ts';
import { ParseCache, parseDocument, type ShapedTree } from '../../grammar/parse.ts';
import type { ShapedPlaced } from '../../grammar/shaped.ts';
import type { Analysis } from '../analysis.ts';
import { vocabulary } from '../kinds/vocabulary.ts';
import { fileName } from '../model/files.ts';
import type { Model, NameUse, Place } from '../model/model.ts';
import { samePlace } from '../model/place.ts';
import type { Edit } from '../rules/rule.ts';
import { declarationOf, ownTerminalClauseAt, terminalsDeclaredAt } from './own-terminals.ts';
import { rangeOf, workspaceEdit } from './ranges.ts';
import { spokenOf } from './spoken-of.ts';
import { named, sameThing, usesOf } from './uses.ts';

export interface Refused {
  readonly refused: string;
}

export interface Renamable {
  readonly range: Range;
  readonly placeholder: string;
}

export interface Renamed {
  readonly edit: WorkspaceEdit;
}

/** What is renamed: it is known by the place that declares it, so that specs with names of their own stay as they are. */
interface Thing {
  readonly word: string;
  readonly target: NameUse['target'];
  readonly here: Place;
  readonly declared: Place;
}

/** The word that would be renamed; undefined where no name stands. */
export function prepareRename(analysis: Analysis, offset: number): Renamable | Refused | undefined {
  const thing = thingAt(analysis, offset);
  if (thing === undefined || 'refused' in thing) return thing;
  return { range: rangeOf(analysis.lines, thing.here.span), placeholder: thing.word };
}

/** `others` are analyses of specs that use one of this one's files. */
export function rename(
  analysis: Analysis,
  offset: number,
  newName: string,
  others: readonly Analysis[] = [],
): Renamed | Refused | undefined {
  const thing = thingAt(analysis, offset);
  if (thing === undefined || 'refused' in thing) return thing;
  const written = newName.trim().normalize('NFC');
  if (written === thing.word) return { edit: { changes: {} } };
  const bad = thing.target === 'terminal' ? badTerminal(written) : badName(written);
  if (bad !== undefined) return { refused: bad };
  const affected = [analysis, ...others].filter((one) => one === analysis || placesIn(one, thing).length > 0);
  for (const one of affected) {
    const clash = thing.target === 'terminal' ? terminalClash(one, thing, written) : nameClash(one, thing, written);
    if (clash !== undefined) {
      const where = clash.place.uri === analysis.uri ? '' : ` in ${fileName(clash.place.uri)}`;
      return { refused: `${clash.says}${where} already: choose another.` };
    }
    const caught = spokenOfAlready(one.model, thing, written, analysis.uri);
    if (caught !== undefined) return { refused: caught };
  }
  const edits = new Map<string, Edit>();
  for (const one of affected)
    for (const place of placesIn(one, thing))
      edits.set(`${place.uri}\n${place.span.start}`, { place, newText: written });
  const all = [...edits.values()];
  const otherwise = readOtherwise(affected, all, written);
  return otherwise === undefined ? { edit: workspaceEdit(filesOf(affected), all) } : { refused: otherwise };
}

function thingAt(analysis: Analysis, offset: number): Thing | Refused | undefined {
  const own = ownTerminalClauseAt(analysis, offset);
  if (own !== undefined) return { word: own.word, target: 'terminal', here: own.place, declared: own.place };
  const use = named(analysis, offset);
  if (use === undefined || use.target === 'file') return undefined;
  if (use.target === 'terminal') return terminalThing(analysis, use);
  const declarations = usesOf(analysis, use).filter(({ declaration }) => declaration);
  const [first, second] = declarations;
  if (first === undefined)
    return {
      refused: `“${use.name}” stands in no statement that can be read, so its other places cannot be found: mend its statement first.`,
    };
  if (second !== undefined)
    return {
      refused: `“${use.name}” is declared ${declarations.length} times, so it is not sure which is meant where: give one of them another name by hand first.`,
    };
  return { word: use.name, target: use.target, here: use.place, declared: first.place };
}

function terminalThing({ model }: Analysis, use: NameUse): Thing | Refused | undefined {
  const terminal = model.terminals.get(use.name);
  if (terminal === undefined) return undefined;
  const { part, spec } = terminal;
  const declared = declarationOf(terminal);
  if (declared !== undefined) return { word: spec.name, target: 'terminal', here: use.place, declared };
  return {
    refused: `${terminal.id} is named as ${part.kind.withArticle} has it marked, so it cannot be renamed; to rename ${part.name}, put the pointer before the colon.`,
  };
}

/** Every place of a thing that this spec sees; none where the name means something else here. */
function placesIn(analysis: Analysis, thing: Thing): Place[] {
  const { model } = analysis;
  if (thing.target === 'terminal') {
    const ids = new Set(terminalsDeclaredAt(model, thing.declared).map(({ id }) => id));
    if (ids.size === 0 && !model.files.some(({ uri }) => uri === thing.declared.uri)) return [];
    const uses = [...ids].flatMap((id) => model.usesOf(id).filter(({ target }) => target === 'terminal'));
    return [thing.declared, ...uses.map(({ place }) => place)];
  }
  const uses = model.usesOf(thing.word).filter((use) => sameThing(use, { name: thing.word, target: thing.target }));
  const declared = uses.some(({ declaration, place }) => declaration && samePlace(place, thing.declared));
  return declared ? uses.map(({ place }) => place) : [];
}

/** Why a word cannot be a name, as the notation itself would tell it. */
function badName(word: string): string | undefined {
  const { items, statements } = parseDocument(`place ${word} indoors`, vocabulary);
  const [statement] = statements;
  const problem = statement?.shaped.problems[0];
  const [name, ...more] = statement?.node.names ?? [];
  if (items.length === 1 && more.length === 0 && name?.value === word && problem === undefined) return undefined;
  if (problem?.slug === 'reserved-name' || problem?.slug === 'bad-name') return problem.message;
  // `and` joins names, so that reading expects one on either side of it.
  if (vocabulary.reserved.has(word)) return whyReserved(word);
  return `“${word}” cannot be a name: names begin with a letter and have letters, digits, _ and -.`;
}

function badTerminal(word: string): string | undefined {
  const [clause] =
    parseDocument(`load X 1 W, terminal ${word}`, vocabulary).statements[0]?.shaped.clauses.slice(1) ?? [];
  const [end] = parseDocument(`run X 1 m, X:${word} to X:${word}`, vocabulary).statements[0]?.node.body.slice(2) ?? [];
  const reads =
    clause?.values.some(({ slot, atom }) => slot === 'name' && atom.text.normalize('NFC') === word) === true &&
    end?.kind === 'terminal' &&
    end.terminal === word;
  return reads
    ? undefined
    : `“${word}” cannot stand behind the colon of a terminal: begin with a letter, and use letters, digits and - only.`;
}

/** What has the new name, and where. */
interface Clash {
  readonly says: string;
  readonly place: Place;
}

function nameClash({ model }: Analysis, { target }: Thing, word: string): Clash | undefined {
  const taken = target === 'case' ? caseNamed(model, word) : thingNamed(model, word);
  return taken && { says: `“${word}” is the name of ${taken.as}`, place: taken.namePlace };
}

function thingNamed({ parts, runs, stocks, locations }: Model, word: string) {
  const part = parts.get(word);
  if (part !== undefined) return { as: part.kind.withArticle, namePlace: part.namePlace };
  const others = [
    ['a run', runs.get(word)],
    ['stock', stocks.get(word)],
    ['a place', locations.get(word)],
  ] as const;
  for (const [as, one] of others) if (one !== undefined) return { as, namePlace: one.namePlace };
  return undefined;
}

function caseNamed({ cases }: Model, word: string) {
  const stated = cases.find(({ name, implied }) => name === word && !implied);
  return stated && { as: 'a case', namePlace: stated.namePlace };
}

/** What speaks of the new name while nothing has it would mean the renamed thing from then on, and nobody said so. */
function spokenOfAlready(model: Model, { target, word: old }: Thing, word: string, here: string): string | undefined {
  if (target === 'terminal') return undefined;
  for (const file of model.files)
    for (const statement of file.statements) {
      const said = spokenOf(statement).find(
        ({ name, asCase, asOther }) => name === word && (target === 'case' ? asCase : asOther),
      );
      if (said === undefined) continue;
      const line = statement.line + statement.node.text.slice(0, said.span.start).split('\n').length;
      const where = file.uri === here ? '' : ` of ${fileName(file.uri)}`;
      return `“${word}” is spoken of already in line ${line}${where}, and would be taken for ${old} there: if that is meant, write ${old} there first; else choose another name.`;
    }
  return undefined;
}

function terminalClash({ model }: Analysis, { declared }: Thing, word: string): Clash | undefined {
  const clashing = terminalsDeclaredAt(model, declared).find(({ part }) =>
    part.terminals.some(({ spec }) => spec.name === word),
  );
  return clashing && { says: `${clashing.part.name} has a terminal “${word}”`, place: clashing.part.namePlace };
}

/** The first place that would mean something else under the new name, as `red` would beside a core's ends. */
function readOtherwise(affected: readonly Analysis[], edits: readonly Edit[], word: string): string | undefined {
  for (const { uri, text, tree } of filesOf(affected).files) {
    const here = edits.filter(({ place }) => place.uri === uri).sort((a, b) => b.place.span.start - a.place.span.start);
    if (here.length === 0) continue;
    const after = here.reduce(
      (done, { place: { span }, newText }) => done.slice(0, span.start) + newText + done.slice(span.end),
      String(text),
    );
    const line = firstOther(tree, parseDocument(after, vocabulary, ParseCache.beside(tree)));
    if (line !== undefined)
      return `With the name “${word}” line ${line + 1} of ${fileName(uri)} would be read otherwise: choose another.`;
  }
  return undefined;
}

function firstOther(before: ShapedTree, after: ShapedTree): number | undefined {
  const reading = ({ shaped, node }: ShapedPlaced) =>
    [
      node.names.length,
      ...shaped.clauses.map(({ spec, values }) => `${spec.id} ${values.map(({ slot }) => slot).join(' ')}`),
    ].join();
  // A name that could not be one may well be read now.
  const isWorse = (one: ShapedPlaced, again: ShapedPlaced) =>
    again.shaped.problems.some(({ slug }) => one.shaped.problems.every((known) => known.slug !== slug));
  const other = before.statements.find((one, i) => {
    const again = after.statements[i];
    return again !== one && (again === undefined || reading(one) !== reading(again) || isWorse(one, again));
  });
  return other?.line ?? (before.statements.length === after.statements.length ? undefined : 0);
}

/** An analysis of nothing but its files: those of all that are affected, each once. */
function filesOf(affected: readonly Analysis[]): Analysis {
  const [first] = affected as readonly [Analysis, ...Analysis[]];
  const files = new Map(affected.flatMap((one) => one.files.map((file) => [file.uri, file] as const)));
  return { ...first, files: [...files.values()] };
}
