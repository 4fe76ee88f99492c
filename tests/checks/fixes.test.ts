/** Every fix that a rule offers, put into the text: its finding is gone, and nothing else has come. */
import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { judge } from '../../src/checks/judge';
import { editOf } from '../../src/language/edits';
import { loadBoat } from '../../src/language/load';
import type { Finding } from '../../src/model/finding';
import { SLOOP, TWIN, after, before, edit, load, without, type Texts } from './boats';
import { HALF, f1 } from './half-full';

type Files = Readonly<Record<string, string>>;
const filesOf = (texts: Texts): Files => (typeof texts === 'string' ? { 'boat.orlop': texts } : texts);
const key = ({ rule, about }: Finding): string => `${rule.code} ${about}`;

const WHAT_TO_DO = /^(Fit|Follow|Give|Lead|Lock|Move|Open|Put|Replace|Set|Shut|Take|Turn|Write) .*\w.*\.$/;

/** The files after the fix of one finding, once it is seen to mend that and to break nothing. */
async function mend(texts: Texts, finding: string): Promise<Files> {
    const files = filesOf(texts);
    const { boat, sources } = await load(files);
    const findings = judge(boat).findings;
    const found = findings.find((other) => key(other) === finding);
    expect(findings.map(key)).toContain(finding);
    expect(found!.fix, 'a fix is offered').toBeDefined();
    const eol = Object.values(files).some((text) => text.includes('\r\n')) ? '\r\n' : '\n';
    const { uri, edit: change } = editOf(found!.fix!, sources, eol)!;
    const name = Object.keys(files).find((file) => uri.endsWith(`/${file}`))!;
    const mended = { ...files, [name]: TextDocument.applyEdits(TextDocument.create(uri, 'orlop', 0, files[name]!), [change]) };

    const again = await loadBoat(mended);
    expect(again.problems.map(({ message }) => message), mended[name]).toEqual([]);
    const left = judge(again.boat).findings.map(key);
    expect(left, mended[name]).not.toContain(finding);
    expect(left.filter((other) => !findings.map(key).includes(other)), mended[name]).toEqual([]);
    return mended;
}
const mendText = async (text: string, finding: string): Promise<string> => (await mend(text, finding))['boat.orlop']!;

const OPEN = without(SLOOP, 'shutoff V1 normally open');
/** A tank and an engine; the supply is still to be written. */
const FILTERS = `tank T1 {
  pickup P1
  vent
}
engine E1
line-up RUN run is normal
`;

describe('Put a shutoff before ...', () => {
    test('in the same file, in the space of the filter', async () => {
        const bay = edit(edit(OPEN, 'filter F1 primary {', 'filter F1 primary in Bay {'), 'level 10 to 95 %\n', 'level 10 to 95 %\n  space Bay machinery\n');
        expect(await mendText(bay, 'SHUTOFF-BEFORE-FILTER F1')).toBe(edit(bay, '  filter F1', '  shutoff V1   normally open   in Bay\n  filter F1'));
    });

    test('with what comes before it in another file', async () => {
        const common = 'supply course Common from SV1.out to E1 { filter F1 final }\n';
        const open = edit(edit(TWIN, 'shutoff V1   normally open', 'hose S1'), 'shutoff V2   normally open', 'hose S2');
        const files = { 'boat.orlop': edit(open, common, ''), 'lines.orlop': common };
        const mended = await mend(files, 'SHUTOFF-BEFORE-FILTER F1');
        expect(mended['boat.orlop']).toBe(files['boat.orlop']);
        expect(mended['lines.orlop']).toContain('{ shutoff V1   normally open   filter F1 final }');
    });

    test('in a course that begins at a tee', async () => {
        const teed = `${FILTERS}generator E2
supply course Feed from T1.P1 to E1 {
  tee J1
  filter F1 final
}
supply course Branch from J1 to E2 {
  filter F2 final
}`;
        expect(await mendText(teed, 'SHUTOFF-BEFORE-FILTER F2')).toBe(edit(teed, '  filter F2', '  shutoff V1   normally open\n  filter F2'));
        await mend(teed, 'SHUTOFF-BEFORE-FILTER F1');
    });

    test('on one side of a changeover that never shuts it', async () => {
        const duplex = edit(`${FILTERS}supply course Feed from T1.P1 to E1 {
  changeover CO1 {
    leg A {
      filter F1 final
    }
    leg B { filter F2 final }
    position A    through A
    position BOTH through A, B
  }
}`, 'run is normal', 'run is normal { CO1 A }');
        expect(await mendText(duplex, 'SHUTOFF-BEFORE-FILTER F1')).toBe(edit(duplex, '      filter F1', '      shutoff V1   normally open\n      filter F1'));
    });

    test('on one leg of a split with a shutoff in the other', async () => {
        const split = `${FILTERS}supply course Feed from T1.P1 to E1 {
  split {
    leg A { hose S1   filter F1 final }
    leg B { shutoff V1 normally open   filter F2 final }
  }
}`;
        expect(await mendText(split, 'SHUTOFF-BEFORE-FILTER F1')).toBe(edit(split, 'filter F1', 'shutoff V2   normally open   filter F1'));
    });

    // A shutoff before the filter leaves the way to its outlet open: round by the other leg, or from the tank behind it.
    test.each([
        ['on one leg of a split, the other open', 'F1', `${FILTERS}supply course Feed from T1.P1 to E1 {
  split {
    leg A { filter F1 final }
    leg B { hose }
  }
}`],
        ['in a transfer between two tanks', 'F3', `${TWIN.replace('pickup P1', 'pickup P1\n  pickup P9').replace('vent\n}\nengine', 'vent\n  drop R9\n}\nengine')}
transfer course Over from T1.P9 to T2.R9 { shutoff V9 normally shut   filter F3 }`],
        ['in the return, where a shutoff could block it', 'F3', after(SLOOP, 'hose B1 bore 6 mm', '  filter F3')],
    ])('%s: what is offered mends, or nothing is offered', async (_where, filter, text) => {
        const found = judge((await load(text)).boat).findings.find((other) => key(other) === `SHUTOFF-BEFORE-FILTER ${filter}`);
        if (found?.fix) await mend(text, key(found));
        else if (found) expect(found.advice).toMatch(WHAT_TO_DO);
    });

    test('on one line with its neighbours', async () => {
        const line = `${FILTERS}supply course Feed from T1.P1 to E1 { hose filter F1 final hose }`;
        expect(await mendText(line, 'SHUTOFF-BEFORE-FILTER F1')).toBe(edit(line, 'filter F1', 'shutoff V1   normally open   filter F1'));
    });

    test('on the line on which its course begins', async () => {
        await mend(`${FILTERS}supply course Feed from T1.P1 to E1 { filter F1 final { passes 5 um } }`, 'SHUTOFF-BEFORE-FILTER F1');
    });

    test('with CRLF', async () => {
        const windows = OPEN.replaceAll('\n', '\r\n');
        expect(await mendText(windows, 'SHUTOFF-BEFORE-FILTER F1')).toBe(edit(windows, '  filter F1', '  shutoff V1   normally open\r\n  filter F1'));
    });

    test('with tabs', async () => {
        const tabs = OPEN.replace(/^ +/gm, (blanks) => '\t'.repeat(Math.ceil(blanks.length / 2)));
        expect(await mendText(tabs, 'SHUTOFF-BEFORE-FILTER F1')).toBe(edit(tabs, '\tfilter F1', '\tshutoff V1   normally open\n\tfilter F1'));
    });

    test('after a comment on the line before, and before one on its own', async () => {
        await mend(edit(edit(OPEN, '  primer PR1', '  primer PR1 -- by the ladder'), 'filter F1 primary {', 'filter F1 primary { -- the big one'), 'SHUTOFF-BEFORE-FILTER F1');
    });

    test('a filter whose tag is used twice', async () => {
        await mend(edit(OPEN, 'filter F2 final', 'filter F1 final'), 'SHUTOFF-BEFORE-FILTER F1~2');
    });
});

describe('Put a shutoff at ...', () => {
    test('before the first part', async () => expect(await mendText(OPEN, 'SHUT-AT-TANK S1')).toBe(edit(OPEN, '  hose S1', '  shutoff V1   normally open\n  hose S1')));
    test.each([['lift pump LP1', 'LP1'], ['electric pump EP1 when off passes', 'EP1']])('before a first part that begins with two words, on one line: %s', async (first, id) => {
        await mend(`${FILTERS}supply course Feed from T1.P1 to E1 { ${first}   filter F1 final }`, `SHUT-AT-TANK ${id}`);
    });
    test('before a split', async () => {
        await mend(`${FILTERS}supply course Feed from T1.P1 to E1 {\n  split S9 {\n    leg A { hose S1 }\n    leg B { hose S2 }\n  }\n  filter F1 final\n}`, 'SHUT-AT-TANK S9.parts');
    });
    test('before a changeover on the line of the course', async () => {
        await mend(edit(`${FILTERS}supply course Feed from T1.P1 to E1 { changeover CO1 {
  leg A { filter F1 final }
  leg B { filter F2 final }
  position A through A
  position B through B
} }`, 'run is normal', 'run is normal { CO1 A }'), 'SHUT-AT-TANK CO1');
    });
    test.each([
        ['a course without a block', 'supply course Feed from T1.P1 to E1'],
        ['the same with a comment after it', 'supply course Feed from T1.P1 to E1 -- one hose'],
        ['an empty block', 'supply course Feed from T1.P1 to E1 { }'],
        ['an empty block of two lines', 'supply course Feed from T1.P1 to E1 { -- to be traced\n}'],
    ])('%s', async (_what, course) => {
        await mend(`${FILTERS}${course}`, 'SHUT-AT-TANK Feed');
        await mend(`${FILTERS}${course}\n`.replaceAll('\n', '\r\n'), 'SHUT-AT-TANK Feed');
    });
});

describe('Say that ... is normally open', () => {
    const UNSAID = edit(SLOOP, 'shutoff V1   normally open', 'shutoff V1');
    test('at the end of its line', async () => expect(await mendText(UNSAID, 'LINEUP-NAMED V1')).toBe(edit(UNSAID, 'shutoff V1', 'shutoff V1   normally open')));
    test.each(['shutoff V1 -- on the tank', 'shutoff V1 { note "stiff" }', 'shutoff V1 {\n note "stiff"\n}', 'shutoff V1 "main" label "FUEL"', 'shutoff V1   bore 8 mm hose'])('%s', async (line) => {
        await mend(edit(UNSAID, 'shutoff V1', line), 'LINEUP-NAMED V1');
    });
    test('with no line-up', async () => void await mend(without(UNSAID, 'line-up RUN run is normal'), 'LINEUP-NAMED V1'));
});

describe('Write a vent for ...', () => {
    test('after the block of the tank', async () => {
        const text = `${edit(FILTERS, '  vent\n', '')}supply course Feed from T1.P1 to E1 { shutoff V1 normally open   filter F1 final }`;
        expect(await mendText(text, 'VENT-EXISTS T1')).toBe(edit(text, 'pickup P1\n}', 'pickup P1\n}\n\nvent course T1Vent1 from T1 to air { hose }'));
    });
    test('a tank without a block, at the end of the file', async () => void await mend(`${SLOOP}tank T2`, 'VENT-EXISTS T2'));
    // The line would have to name T1, and that is the first tank: no fix is better than one for the wrong tank.
    test('the second tank of one name', async () => {
        const found = judge((await load(`${SLOOP}tank T1`)).boat).findings.find((other) => key(other) === 'VENT-EXISTS T1~2');
        expect(found).toBeDefined();
        expect(found!.fix).toBeUndefined();
    });
});

// ---- all at once

const EXAMPLES = new URL('../../examples/', import.meta.url);
const examples = readdirSync(EXAMPLES).map((boat): [string, Files] => [boat, Object.fromEntries(
    readdirSync(new URL(`${boat}/`, EXAMPLES)).filter((file) => file.endsWith('.orlop')).map((file) => [file, readFileSync(new URL(`${boat}/${file}`, EXAMPLES), 'utf8')]),
)]);

test.each(examples)('every fix for examples/%s', async (_boat, files) => {
    for (const finding of judge((await load(files)).boat).findings) if (finding.fix) await mend(files, key(finding));
});

test('where no fix is offered the advice says what to do', async () => {
    const faults: Texts[] = [
        ...examples.map(([, files]) => files), edit(TWIN, '{ SV1 PORT   SV2 PORT }', ''), after(TWIN, 'position STBD joins in, stbd', '  position OFF joins nothing'),
        after(SLOOP, 'hose B1 bore 6 mm', '  shutoff V5 normally open'), edit(SLOOP, 'run is normal', 'run is normal { V1 shut }'), edit(SLOOP, 'primer PR1', 'primer PR1 reversed'),
        before(SLOOP, 'hose VH1 bore 16 mm', '  shutoff V7 normally open'), edit(SLOOP, 'bore 16 mm', 'bore 12 mm'), edit(SLOOP, 'passes 5 um', 'passes 50 um'), edit(SLOOP, 'hose S2 ', 'hose S1 '),
        edit(SLOOP, 'from E1 to T1.R1', 'from E1 to deck'), 'engine E1', edit(SLOOP, 'vent        at 600 mm', 'vent at 500 mm'),
        edit(SLOOP, 'drop R1 ', 'drop R1   mouth at 90 mm off bottom '), edit(SLOOP, 'bore 16 mm', 'bore 16 mm   low at 500 mm   outlet at 900 mm'),
        `${SLOOP}heater HE\nsupply course HeatFeed from T1.P1 to HE { shutoff V8   normally open }\n`,
        f1(HALF, 'ports at 300 mm'), edit(SLOOP, 'pickup P1   bore 8 mm', 'pickup P1   bore 5 mm'), edit(SLOOP, 'level 10 to 95 %', 'level 10 to 99 %'),
        edit(edit(SLOOP, 'primer PR1', 'primer PR1   cracks 2 kPa   pushes 90 kPa'), 'passes 10 um', 'passes 10 um   stands 60 kPa'),
        edit(edit(SLOOP, 'primer PR1', 'electric primer PR1   when off passes   pushes 90 kPa'), 'lift pump LP1', 'lift pump LP1   stands 60 kPa'),
        `${edit(edit(edit(SLOOP, 'mm\n  drop', 'mm   mouth at 25 mm off bottom\n  drop'), 'engine E1 {', 'engine E1 {\n  burns 9 L/h at 2400 rpm'), '  hose S2 ', '  tee J1\n  hose S2 ')}generator GN\nsupply course Gen from J1 to GN { hose G1 bore 8 mm }\npassage Long motors 90 h\n`,
        `${edit(SLOOP, '  drop R1     bore 8 mm', '  drop R1     bore 8 mm\n  drop R2\n  pickup P2')}tank T2 { pickup P2 }\ntransfer course Over from T2.P2 to T1.R2 { tee J2   electric pump EP1   gives 5 L/h }
transfer course Round from T1.P2 to J2 { hose }\nline-up XFER transfer moves 300 L\nline-up POLISH polish\n`,
    ];
    const codes = new Set<string>();
    for (const fault of faults) for (const finding of judge((await load(fault)).boat).findings) {
        if (finding.fix) continue;
        codes.add(finding.rule.code);
        expect(finding.advice).toMatch(WHAT_TO_DO);
    }
    expect([...codes].sort()).toEqual(['BLEED-DRIVE', 'CHECK-CRACK', 'CHECK-DIR', 'EXPANSION', 'FILTER-ORDER', 'FILTER-OVERSIZE', 'FILTER-TWO', 'FITTING-BORE', 'HEAD-ON-OPEN', 'HOSE-FIRE', 'LINEUP-NAMED', 'NO-HUMP', 'PATH-ONE', 'PICKUP-HEEL', 'PICKUP-RANK', 'POLISH-TURNOVER', 'PORT-ONCE', 'PRIMER-PRESSURE', 'PRIMER-REACH', 'PRIMER-STROKES', 'PUMP-SERIES', 'RESERVE', 'RETURN-NO-BLOCK', 'RETURN-SUBMERGED', 'SHARED-AREA', 'SINGLE-POINT', 'SUCTION-BUDGET', 'TAG-UNIQUE', 'TASK-SET', 'VENT-ABOVE-FILL', 'VENT-AREA', 'VENT-EXISTS', 'VENT-HEEL', 'VENT-SELF-DRAIN', 'XFER-ULLAGE']);
});

describe('the fixes of the later rules', () => {
    const OVER = '2400 mm fwd, 600 mm stbd';
    test('a check valve at the end of a return that hangs low', async () => {
        const hung = edit(edit(edit(HALF, 'engine E1 {', `engine E1 {\n  inlet at 900 mm up, ${OVER}`), 'drop R1     bore 8 mm', `drop R1     bore 8 mm   mouth at 225 mm up, ${OVER}   top at 900 mm up, ${OVER}`), 'hose B1      bore 6 mm', `hose B1      bore 6 mm   low at 240 mm up, ${OVER}`);
        expect(await mendText(hung, 'RETURN-SHUT-IF-LOW T1.R1')).toBe(edit(hung, `low at 240 mm up, ${OVER}\n`, `low at 240 mm up, ${OVER}\n  check CV1\n`));
    });
    test('a check valve before a filter whose column nothing holds', async () => {
        const bare = edit(f1(HALF, `ports at 600 mm up, ${OVER}`), '  primer PR1\n', '');
        expect(await mendText(bare, 'DRAINBACK F1')).toBe(edit(bare, '  filter F1', '  check CV1\n  filter F1'));
    });
    test('a check valve behind the shutoff at the tank, for a pump that loses its prime', async () => {
        const lost = edit(edit(HALF, 'engine E1 {', 'engine E1 {\n  loses prime'), 'lift pump LP1', `lift pump LP1   at 1050 mm up, ${OVER}`);
        expect(await mendText(lost, 'FOOT-CHECK E1')).toBe(edit(lost, '  hose S1 ', '  check CV1\n  hose S1 '));
    });
    test('a shutoff before a check that holds too little', async () => {
        const weak = edit(edit(edit(HALF, 'pickup P1   bore 8 mm', `pickup P1   bore 8 mm   mouth at 225 mm up, ${OVER}   top at 900 mm up, ${OVER}`), 'shutoff V1   normally open\n  hose S1      bore 8 mm', `check CV1   cracks 0.5 kPa\n  hose S1      bore 8 mm   low at 240 mm up, ${OVER}`), 'primer PR1', `primer PR1   at 900 mm up, ${OVER}`);
        expect(await mendText(weak, 'SIPHON-BREAK CV1')).toBe(edit(weak, '  check CV1', '  shutoff V1   normally open\n  check CV1'));
    });

    const RETURN = edit(edit(edit(SLOOP, 'passes 5 um', 'passes 5 um\n    ports at 500 mm'), 'drop R1     bore 8 mm', 'drop R1     bore 8 mm   mouth at 25 mm off bottom'), 'engine E1 {', 'engine E1 {\n  backflow passes');
    test('a check valve at the end of the return', async () => {
        expect(await mendText(RETURN, 'ISOLATE-FILTER-IN F2')).toBe(edit(RETURN, '  hose B1      bore 6 mm', '  hose B1      bore 6 mm\n  check CV1'));
        // A remark stays with the hose that it speaks of.
        const remark = edit(RETURN, 'hose B1      bore 6 mm', 'hose B1      bore 6 mm   -- old');
        expect(await mendText(remark, 'ISOLATE-FILTER-IN F2')).toBe(edit(remark, '-- old', '-- old\n  check CV1'));
        await mend(edit(RETURN, 'return course Back from E1 to T1.R1 {\n  hose B1      bore 6 mm\n}', 'return course Back from E1 to T1.R1'), 'ISOLATE-FILTER-IN F2');
        await mend(edit(RETURN, '{\n  hose B1      bore 6 mm\n}', '{ hose B1 bore 6 mm }'), 'ISOLATE-FILTER-IN F2');
        await mend(edit(RETURN, '  hose B1      bore 6 mm\n', '  split {\n    leg A { hose B1 }\n    leg B { hose B2 }\n  }\n'), 'ISOLATE-FILTER-IN F2');
        await mend(RETURN.replaceAll('\n', '\r\n'), 'ISOLATE-FILTER-IN F2');
    });

    test('a shutoff behind a filter with a block', async () => {
        const rises = edit(edit(SLOOP, 'passes 10 um', 'passes 10 um\n    ports at 600 mm'), 'lift pump LP1', 'lift pump LP1 at 700 mm');
        expect(await mendText(rises, 'ISOLATE-FILTER-OUT F1')).toBe(edit(rises, '    bleed BS1\n  }\n', '    bleed BS1\n  }\n  shutoff V2   normally open\n'));
    });

    test('shutoffs at both ends of a crossover', async () => {
        const level = (parts: string): string => `tank T1 {\n  pickup X1\n  vent\n}\ntank T2 {\n  pickup X2\n  vent\n}\ntransfer course Level from T1.X1 to T2.X2${parts}\nline-up RUN run is normal\n`;
        for (const parts of [' {\n  hose X\n}', ' { hose X }', '', ' { shutoff VX1 normally shut   hose X }']) {
            if (!parts.includes('VX1')) await mend(level(parts), 'XOVER-TWO-VALVES T1.X1');
            await mend(level(parts), 'XOVER-TWO-VALVES T2.X2');
        }
        const once = await mendText(level(' {\n  hose X\n}'), 'XOVER-TWO-VALVES T1.X1');
        await mend(once, 'XOVER-TWO-VALVES T2.X2');
    });

    test('a plug', async () => {
        const open = edit(SLOOP, 'passes 10 um', 'passes 10 um   drain at 480 mm');
        expect(await mendText(open, 'DRAIN-PLUGGED F1')).toBe(edit(open, 'filter F1 primary {', 'filter F1 primary   plugged {'));
    });

    test('a check valve beside a pump', async () => {
        const beside = (main: string): string => edit(SLOOP, '  primer PR1\n', `  primer PR1\n  split {\n    leg main { ${main} }\n    leg B { electric primer EP1 when off blocks }\n  }\n`);
        expect(await mendText(beside('hose H1'), 'BYPASS-CHECK EP1')).toBe(edit(beside('hose H1'), 'hose H1', 'check CV1   hose H1'));
        await mend(beside('hose H1   gauge G9   hose H2'), 'BYPASS-CHECK EP1');
        await mend(beside('shutoff VM normally open'), 'BYPASS-CHECK EP1');
        await mend(`${edit(SLOOP, '  primer PR1\n', '  tee JA\n  hose H1\n  tee JB\n  primer PR1\n')}supply course Prime from JA to JB { electric primer EP1 when off blocks }\n`, 'BYPASS-CHECK EP1');
    });

    test('the missing shutoff of a side', async () => {
        const legs = (a: string): string => edit(SLOOP, '  primer PR1\n', `  primer PR1\n  split {\n    leg A { ${a} }\n    leg B { shutoff VC normally open   filter F4   shutoff VD normally open }\n  }\n`);
        await mend(legs('shutoff VA normally open   filter F3'), 'DUPLEX-ISOLATE F3');
        await mend(legs('filter F3   shutoff VB normally open'), 'DUPLEX-ISOLATE F3');
    });
});
