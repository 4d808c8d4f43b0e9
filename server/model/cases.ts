/** Cases: the operating conditions a spec states, or the four it is worked out for when it states none. */
import type { ClauseNode } from '../../grammar/shaped.ts';
import type { Builder } from './builder.ts';
import type { Declaration } from './declarations.ts';
import { FactSet, slotNumber, slotWord } from './facts.ts';
import type { Case, Origin, Reading, SaidInFile } from './model.ts';
import { headPlace } from './place.ts';
import { positionSaid } from './selector-positions.ts';
import { statementsOf } from './statements.ts';
import { ownFacts } from './stock.ts';

type Conditions = Omit<Case, 'name' | 'title' | 'origin' | 'namePlace' | 'implied'>;

const nothingSaid: Conditions = {
  sun: undefined,
  charge: undefined,
  chargeOf: new Map(),
  voltsOf: new Map(),
  on: new Map(),
  positions: new Map(),
  allLoads: undefined,
  allSources: undefined,
  ambientCelsius: undefined,
  conductorsCelsius: undefined,
};

export function buildCases(builder: Builder): readonly Case[] {
  const { declarations, kept, lookups, read } = builder;
  const stated = [...declarations.cases.values()].map((declaration) =>
    kept.cases.of(declaration, lookups, () => statedCase(builder, declaration)),
  );
  return stated.length > 0 ? stated : impliedCases(builder, read.files[0]);
}

function statedCase(builder: Builder, { name, origin, namePlace }: Declaration): Case {
  return {
    name,
    title: origin.statement.node.title?.value,
    origin,
    namePlace,
    implied: false,
    ...conditions(builder, origin.statement.shaped.clauses),
  };
}

/** Readings of the spec's own file, each with its conditions as a case of its own. */
export function buildReadings(builder: Builder): Reading[] {
  const { kept, lookups } = builder;
  return statementsOf(builder, 'reading', true).map((origin) =>
    kept.readings.of(origin.statement, lookups, () => readingOf(builder, origin)),
  );
}

function readingOf(builder: Builder, origin: Origin): Reading {
  const facts = new FactSet('', origin, ownFacts(origin));
  return {
    origin,
    facts,
    conditions: {
      name: `reading ${facts.word('taken', 'date') ?? ''}`,
      title: undefined,
      origin,
      namePlace: headPlace(origin),
      implied: false,
      ...conditions(builder, origin.statement.shaped.clauses),
    },
  };
}

/** What clauses of a case say; the first of two that say the same counts. */
function conditions(builder: Builder, clauses: readonly ClauseNode[]): Conditions {
  const chargeOf = new Map<string, number>();
  const voltsOf = new Map<string, number>();
  const on = new Map<string, boolean>();
  const positions = new Map<string, string>();
  const said: Partial<Record<'sun' | 'charge' | 'ambientCelsius' | 'conductorsCelsius', number>> = {};
  const all: Partial<Record<'loads' | 'sources', boolean>> = {};
  for (const clause of clauses) {
    const slot = (name: string) => clause.values.find((value) => value.slot === name);
    const number = (name: string) => {
      const value = slot(name);
      return value === undefined ? undefined : slotNumber(value);
    };
    const amount = (name: string, as: keyof typeof said) => {
      const value = number(name);
      if (value !== undefined) said[as] ??= value;
    };
    const ofBattery = (to: Map<string, number>, name: string) => {
      const battery = slot('battery');
      const word = battery === undefined ? undefined : slotWord(battery);
      const value = number(name);
      if (word !== undefined && value !== undefined && !to.has(word) && builder.names.find(word, ['battery']))
        to.set(word, value);
    };
    const state = slot('state')?.atom.text === 'on';
    // Readings say the same behind `with`.
    switch (clause.spec.id.replace(/^with-/, '')) {
      case 'sun':
        amount('sun', 'sun');
        break;
      case 'charge':
        amount('charge', 'charge');
        break;
      case 'ambient':
        amount('temperature', 'ambientCelsius');
        break;
      case 'conductors':
        amount('temperature', 'conductorsCelsius');
        break;
      case 'charge-of':
        ofBattery(chargeOf, 'charge');
        break;
      case 'volts-of':
        ofBattery(voltsOf, 'voltage');
        break;
      case 'all':
        all[slot('group')?.atom.text === 'loads' ? 'loads' : 'sources'] ??= state;
        break;
      case 'state':
        for (const value of clause.values) {
          const word = value.slot === 'part' ? slotWord(value) : undefined;
          if (word !== undefined && !on.has(word) && builder.names.find(word, ['part'])) on.set(word, state);
        }
        break;
      case 'position': {
        const turned = positionSaid(builder, clause);
        if (turned !== undefined && !positions.has(turned.selector)) positions.set(turned.selector, turned.position);
        break;
      }
    }
  }
  return {
    sun: said.sun,
    charge: said.charge,
    chargeOf,
    voltsOf,
    on,
    positions,
    allLoads: all.loads,
    allSources: all.sources,
    ambientCelsius: said.ambientCelsius,
    conductorsCelsius: said.conductorsCelsius,
  };
}

/** They have no words of their own; their place is the spec's first statement, and an empty spec has nothing to work out. */
function impliedCases({ kept, lookups }: Builder, file: SaidInFile | undefined): readonly Case[] {
  const statement = file?.statements.find(({ shaped }) => shaped.spec?.word === 'system') ?? file?.statements[0];
  if (file === undefined || statement === undefined) return [];
  return kept.implied.of(statement, lookups, () => impliedAt(kept.origin(file, statement)));
}

function impliedAt(origin: Origin): Case[] {
  const implied = (name: string, more: Partial<Conditions>): Case => ({
    ...nothingSaid,
    name,
    title: undefined,
    origin,
    namePlace: headPlace(origin),
    implied: true,
    ...more,
  });
  return [
    implied('loads-only', { allLoads: true }),
    implied('sun-only', { sun: 1 }),
    implied('sun-and-loads', { sun: 1, allLoads: true }),
    implied('charging', { sun: 1, allSources: true }),
  ];
}
