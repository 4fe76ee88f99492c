/** The boat that the tests of rules start from, one-edit changes of it, and verdicts as lines that can be read. */
import { readFileSync, readdirSync } from 'node:fs';
import { expect } from 'vitest';
import { judge } from '../../src/checks/judge';
import { loadBoat, type Loaded } from '../../src/language/load';
import type { Failure, Verdict } from '../../src/model/finding';

/** The files of a boat by name, or the text of one file. */
export type Texts = string | Readonly<Record<string, string>>;

/** Sound in every rule but TASK-SET: it has no intervals, so that a test may take any part away. The tank is 800 mm long, 600 broad, 400 high, its top at 200 + 400 = 600 mm. */
export const SLOOP = `
vessel Sanderlwake {
  heights from "top of the keel"
  envelope heel 20 deg   trim 5 deg   level 10 to 95 %
}
tank T1 {
  box 800 x 600 x 400 mm   low aft inner corner at 200 mm up, 2000 mm fwd, 300 mm stbd
  pickup P1   bore 8 mm
  drop R1     bore 8 mm
  vent        at 600 mm
  fill        ends at the top
}
engine E1 {
  bleed BS3
}
supply course Feed from T1.P1 to E1 {
  shutoff V1   normally open
  hose S1      bore 8 mm
  primer PR1
  filter F1 primary {
    passes 10 um
    bleed BS1
  }
  hose S2      bore 8 mm
  lift pump LP1
  filter F2 final {
    passes 5 um
    bleed BS2
  }
  tube S3      bore 6 mm
}
return course Back from E1 to T1.R1 {
  hose B1      bore 6 mm
}
vent course Breather from T1 to air {
  hose VH1     bore 16 mm
}
fill course Filler from deck to T1 {
  hose FH1     bore 38 mm
}
line-up RUN run is normal
`;

/** Two tanks, a selector that chooses the supply and one that chooses the return. */
export const TWIN = `
tank T1 {
  pickup P1
  drop R1
  vent
}
tank T2 {
  pickup P1
  drop R1
  vent
}
engine E1
selector SV1 {
  ports port, stbd, out
  position PORT joins port, out
  position STBD joins stbd, out
}
selector SV2 {
  ports in, port, stbd
  position PORT joins in, port
  position STBD joins in, stbd
}
supply course FromPort from T1.P1 to SV1.port { shutoff V1   normally open }
supply course FromStbd from T2.P1 to SV1.stbd { shutoff V2   normally open }
supply course Common from SV1.out to E1 { filter F1 final }
return course Back from E1 to SV2.in { hose B1 }
return course ToPort from SV2.port to T1.R1 { hose B2 }
return course ToStbd from SV2.stbd to T2.R1 { hose B3 }
line-up RUN-PORT run is normal     { SV1 PORT   SV2 PORT }
line-up RUN-STBD run from RUN-PORT { SV1 STBD   SV2 STBD }
`;

/** The files of an example. */
export function example(name: string): Texts {
    const folder = new URL(`../../examples/${name}/`, import.meta.url);
    return Object.fromEntries(readdirSync(folder).filter((file) => file.endsWith('.orlop')).map((file) => [file, readFileSync(new URL(file, folder), 'utf8')]));
}

/** The text with one place changed; the place must be there, and only once. */
export function edit(text: string, old: string, now: string): string {
    if (text.split(old).length !== 2) throw new Error(`\`${old}\` stands ${text.split(old).length - 1} times in the text`);
    return text.replace(old, () => now);
}

/** The text with a line more, before or after the one line that says this. */
export const before = (text: string, line: string, added: string): string => byLine(text, line, (old) => [added, old]);
export const after = (text: string, line: string, added: string): string => byLine(text, line, (old) => [old, added]);

/** The text without the one line that says this, and whatever blanks are around it. */
export const without = (text: string, line: string): string => byLine(text, line, () => []);

function byLine(text: string, line: string, change: (old: string) => string[]): string {
    const lines = text.split('\n');
    if (lines.filter((other) => tidy(other) === line).length !== 1) throw new Error(`\`${line}\` is not one line of the text`);
    return lines.flatMap((old) => (tidy(old) === line ? change(old) : [old])).join('\n');
}

const tidy = (line: string): string => line.trim().replace(/\s+/g, ' ');

/** Loads a boat whose text has nothing wrong with it. */
export async function load(texts: Texts): Promise<Loaded> {
    const loaded = await loadBoat(typeof texts === 'string' ? { 'boat.orlop': texts } : texts);
    expect(loaded.problems.map(({ message }) => message)).toEqual([]);
    return loaded;
}

/** What one rule says, of one thing or of all: a line for each verdict, with the message of a failure and each missing fact. */
export async function said(code: string, texts: Texts, about?: string, today?: string): Promise<string[]> {
    const { verdicts, findings } = judge((await load(texts)).boat, today);
    expect(findings.flatMap(strange)).toEqual([]);
    return verdicts.filter(({ check, verdict }) => check.code === code && (about === undefined || verdict.about === about)).map(({ check, verdict }) => spelt(verdict, check.severity));
}

function spelt(verdict: Verdict, usual: string): string {
    switch (verdict.outcome) {
        case 'pass': return `pass ${verdict.about}`;
        case 'fail': return `fail ${verdict.about}, ${verdict.severity ?? usual}: ${verdict.message}`;
        case 'cannot tell': return `cannot tell ${verdict.about}: ${verdict.missing.map(({ fact }) => fact).join('; ')}`;
        case 'not applicable': return `not applicable ${verdict.about}: ${verdict.why}`;
    }
}

/** All that a failure tells its reader. */
export const toldBy = ({ message, reason, advice, fix, see }: Failure): string[] => [message, reason, advice, ...(fix ? [fix.title, fix.line] : []), ...(see ?? []).map(({ why }) => why)];
/** Where a value that is not there has got into the words. */
export const strange = (failure: Failure): string[] => toldBy(failure).filter((text) => /\b(undefined|NaN|null)\b|\[object/.test(text));
