/** From the text of a spec to its answers, and short ways to look things up in them. */
import type { CaseAnswer, ContactFigures, CoreFigures, CoreInCase, PartInCase } from '../../server/answers/answers.ts';
import { analyseText } from '../analysed.ts';

/** Answers of a spec that reads without a problem of language; terminals may be left open. */
export function answersOf(text: string, files: Readonly<Record<string, string>> = {}) {
  const { model, answers } = analyseText(text, files);
  const wrong = model.problems.filter(({ slug }) => slug !== 'terminal-unconnected');
  if (wrong.length > 0) throw new Error(wrong.map(({ message }) => message).join('\n'));
  return {
    model,
    answers,
    /** Figures over all cases: `core('W1')` of a run with one core, `core('W1', 'red')` of one with several. */
    core(run: string, label?: string): CoreFigures {
      const found = [...answers.cores.values()].find(
        ({ core }) => core.run.name === run && (label === undefined || core.label === label),
      );
      return defined(found, `${run} ${label ?? ''}`);
    },
    contact(part: string, pole = 1): ContactFigures {
      return defined(
        answers.contacts.get(part)?.find((one) => one.pole === pole),
        `${part} pole ${pole}`,
      );
    },
    load: (name: string) => defined(answers.loads.get(name), name),
    chosen: (name: string) => answers.chosen.filter(({ subject }) => subject === name).map(({ text }) => text),
    in(name: string) {
      return inCase(
        defined(
          answers.cases.find((one) => one.name === name),
          name,
        ),
      );
    },
  };
}

function inCase(answer: CaseAnswer) {
  return {
    ...answer,
    at: (terminal: string): number => defined(answer.volts.get(terminal), terminal),
    core(run: string, label?: string): CoreInCase {
      return defined(
        answer.cores.find(({ core }) => core.run.name === run && (label === undefined || core.label === label)),
        run,
      );
    },
    part: (name: string): PartInCase => defined(answer.parts.get(name), name),
    pole: (part: string, pole: number) =>
      defined(
        answer.contacts.find((one) => one.part.name === part && one.pole === pole),
        part,
      ),
  };
}

function defined<T>(value: T | undefined, what: string): T {
  if (value === undefined) throw new Error(`there is no ${what}`);
  return value;
}

/** Names of devices with their pole where they have several: `F1`, `FB:3`. */
export function devices({ protection }: Pick<CoreFigures, 'protection'>): string[] {
  return protection.devices
    .map(({ part, pole }) => (part.contacts.length > 1 ? `${part.name}:${pole}` : part.name))
    .sort();
}

export function limited({ protection }: Pick<CoreFigures, 'protection'>): string[] {
  return protection.limitedSources.map(({ part }) => part.name).sort();
}
