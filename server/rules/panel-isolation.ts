/** What parts panels from their controller: switches, or only plugs and fuses, or nothing; on each conductor. */
import type { PanelInput, StringFigures } from '../answers/strings.ts';
import { keptWhile } from '../model/lazily.ts';
import type { Terminal } from '../model/model.ts';
import type { Edge, Layout } from '../model/network.ts';
import { reach } from './reach.ts';
import type { RuleContext } from './rule.ts';

export type Parted = 'switch' | 'plug' | 'nothing';

export interface PanelIsolation {
  readonly input: PanelInput;
  readonly string: StringFigures;
  readonly plus: Parted;
  readonly minus: Parted;
}

const kept = keptWhile<Layout, readonly PanelIsolation[]>();

/** Of each string that feeds a controller or charger. */
export function panelIsolation(context: RuleContext): readonly PanelIsolation[] {
  const { strings, network } = context.answers;
  return kept(network.layout, [strings], () => isolationIn(context));
}

function isolationIn({ model, answers }: RuleContext): PanelIsolation[] {
  return answers.strings.inputs.flatMap((input) => {
    const end = (sign: '+' | '-') => model.terminals.get(`${input.controller.name}:pv${sign}`);
    const [plus, minus] = [end('+'), end('-')];
    if (plus === undefined || minus === undefined) return [];
    return input.strings.flatMap((string) => {
      const pole = (panel: StringFigures['panels'][number] | undefined, sign: '+' | '-') =>
        panel?.terminals.find(({ spec }) => spec.polarity === sign);
      const [top, bottom] = [pole(string.panels.at(-1), '+'), pole(string.panels[0], '-')];
      if (top === undefined || bottom === undefined) return [];
      return [{ input, string, plus: parted(top, plus, answers), minus: parted(bottom, minus, answers) }];
    });
  });
}

function parted(from: Terminal, to: Terminal, { network }: RuleContext['answers']): Parted {
  const isSwitch = (edge: Edge) =>
    edge.is === 'contact' && (edge.contact.operated === 'hand' || edge.contact.operated === 'position');
  if (!reach(from, network, (edge) => !isSwitch(edge)).has(to)) return 'switch';
  const isFuse = (edge: Edge) => edge.is === 'contact' && edge.contact.protects;
  const isPlug = ({ part }: Terminal) => part.kind.word === 'connector';
  return reach(from, network, (edge) => !isSwitch(edge) && !isFuse(edge), isPlug).has(to) ? 'nothing' : 'plug';
}
