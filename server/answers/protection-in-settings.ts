/** What protects a way whichever position its selectors are in: what does so in the worst of them. */
import { lazily, lazilyEach } from '../model/lazily.ts';
import type { Part } from '../model/model.ts';
import type { Protection } from './answers.ts';
import type { Protects, WayProtection } from './protection.ts';
import type { Way } from './wiring.ts';

/** One setting, and the way of the whole spec as it is there; undefined where a contact of it is open. */
export interface InSetting {
  readonly protects: Protects;
  wayOf(way: Way): Way | undefined;
}

export class ProtectionInSettings implements Protects {
  constructor(
    /** With every contact closed: for what is joined in no setting. */
    private readonly whole: Protects,
    private readonly settings: readonly InSetting[],
  ) {}

  isReturn(way: Way): boolean {
    return this.whole.isReturn(way);
  }

  readonly of = lazilyEach((way: Way): WayProtection => {
    const all = this.in(way, (protects, own) => protects.of(own));
    const [first, ...others] = all;
    if (first === undefined) return this.whole.of(way);
    const worst = others.reduce((most, one) => (one.protection.amps > most.protection.amps ? one : most), first);
    const unprotectedFrom = lazily(() => [...new Set(all.flatMap(({ protection }) => protection.unprotectedFrom))]);
    return {
      protection: new WorstProtection(worst.protection, unprotectedFrom),
      beforeFirstDevice: all.some((one) => one.beforeFirstDevice) && unprotectedFrom().length === 0,
    };
  });

  readonly clearing = lazilyEach((way: Way): Protection['devices'] => {
    const { devices, unprotectedFrom } = this.of(way).protection;
    if (devices.length > 0 || unprotectedFrom.length > 0) return devices;
    const all = this.in(way, (protects, own) => protects.clearing(own)).flat();
    return all.filter((one, i) => all.findIndex(({ part, pole }) => part === one.part && pole === one.pole) === i);
  });

  readonly circuitAmps = lazilyEach((way: Way): number => {
    const all = this.in(way, (protects, own) => protects.circuitAmps(own));
    return all.length === 0 ? this.whole.circuitAmps(way) : Math.max(...all);
  });

  private in<T>(way: Way, ask: (protects: Protects, own: Way) => T): T[] {
    return this.settings.flatMap(({ protects, wayOf }) => {
      const own = wayOf(way);
      return own === undefined ? [] : [ask(protects, own)];
    });
  }
}

/** That of one setting, with the sources that nothing protects it from in any. */
class WorstProtection implements Protection {
  constructor(
    private readonly worst: Protection,
    private readonly bare: () => readonly Part[],
  ) {}

  get amps(): number {
    return this.worst.amps;
  }

  get devices(): Protection['devices'] {
    return this.worst.devices;
  }

  get limitedSources(): Protection['limitedSources'] {
    return this.worst.limitedSources;
  }

  get unprotectedFrom(): readonly Part[] {
    return this.bare();
  }

  get blank(): boolean {
    return this.worst.blank;
  }
}
