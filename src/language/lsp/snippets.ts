/** Whole declarations to fill in, at the head of a line outside of every block. Tags are the next free ones, ends those that lead nowhere yet. */
import { CompletionItemKind, InsertTextFormat, type CompletionItem } from 'vscode-languageserver-protocol';
import type { Boat } from '../../model/boat';
import { freeTag } from '../../checks/check';

export const snippet = (label: string, text: string, detail?: string): CompletionItem => ({
    label, kind: CompletionItemKind.Keyword, insertText: text, insertTextFormat: InsertTextFormat.Snippet, ...(detail !== undefined && { detail }),
});

export const keyword = (label: string, text?: string): CompletionItem => (text === undefined ? { label, kind: CompletionItemKind.Keyword } : snippet(label, text));
export const names = (list: readonly string[]): CompletionItem[] => list.map((label) => ({ label, kind: CompletionItemKind.Variable }));

export function beginnings(boat: Boat): CompletionItem[] {
    const tag = (letter: string): string => freeTag(boat, letter);
    const free = (name: string): string => (boat.tags.has(name) ? freeTag(boat, name) : name);
    const from = endsOf(boat, 'from');
    const to = endsOf(boat, 'to');
    const [tank, consumer] = [boat.tanks[0]?.id ?? 'T1', boat.consumers[0]?.id ?? 'E1'];
    const valve = boat.parts.find((part) => part.kind === 'shutoff' && part.tag !== undefined)?.id;
    const filter = boat.parts.find((part) => part.kind === 'filter' && part.tag !== undefined)?.id ?? 'F1';
    const normal = boat.lineUps.find((lineUp) => lineUp.normal)?.id ?? 'RUN';
    const shut = valve === undefined ? '' : `   { ${valve} shut }`;
    const [run, service, laidUp] = [free('RUN'), free('SERVICE'), free('LAID-UP')];
    return [
        snippet('vessel', 'vessel ${1:Name} {\n  heights from "${2:inside of hull at the engine}"\n  envelope heel ${3:20 deg}   level ${4:5 to 95 %}\n}', 'the boat'),
        snippet('tank', `tank \${1:${tag('T')}} carries diesel {\n  pickup \${2:P1}\n  drop \${3:R1}\n  vent\n  fill\n}`, 'a tank and its fittings'),
        snippet('engine', `engine \${1:${tag('E')}} {\n  injection \${2|in-line,rotary,unit,common-rail|} \${3|mechanical,electronic|}\n  exhaust \${4|wet,dry|}\n  bleed \${5:${tag('BS')}}\n}`, 'an engine'),
        snippet('generator', `generator \${1:${tag('GN')}} {\n  $0\n}`), snippet('heater', `heater \${1:${tag('H')}} {\n  $0\n}`), snippet('exchanger', `exchanger \${1:${tag('HX')}} {\n  $0\n}`),
        snippet('supply course', `supply course \${1:${free('Feed')}} from \${2:${from.tank}} to \${3:${to.consumer}} {\n  shutoff \${4:${tag('V')}}    normally open\n  hose\n  filter \${5:${tag('F')}}     primary\n  $0\n}`, 'tank to engine, read downstream'),
        snippet('return course', `return course \${1:${free('Back')}} from \${2:${from.consumer}} to \${3:${to.tank}} {\n  hose\n}`, 'engine to tank'),
        snippet('vent course', `vent course \${1:${free('Breather')}} from \${2:${tank}} to air { hose }`), snippet('fill course', `fill course \${1:${free('Filler')}} from deck to \${2:${tank}} { hose }`),
        snippet('transfer course', `transfer course \${1:${free('Across')}} from \${2:${from.tank}} to \${3:${to.tank}} {\n  $0\n}`),
        snippet('selector', `selector \${1:${tag('SV')}} {\n  ports \${2:port}, \${3:stbd}, out\n  position \${4:PORT} joins \${2:port}, out\n  position \${5:STBD} joins \${3:stbd}, out\n}`, 'a valve that joins one of several lines'),
        snippet('line-up', `line-up \${1:${run}} \${2|run,service,laid up,transfer,polish,emergency|}`, 'valve positions by name'),
        snippet('line-ups', `line-up \${1:${run}}   run   is normal\nline-up \${2:${service}}   service   from \${1:${run}}${shut}\nline-up \${3:${laidUp}}   laid up   from \${2:${service}}`, 'running, service and laid up'),
        snippet('pattern of a part', `pattern \${1:Bowl} is filter primary {\n  separates water   passes \${2:10 um}\n  lid at \${3:40 mm} over ports\n  bleed \${4:BS} at \${5:45 mm} over ports\n}`, 'a part that is used more than once'),
        snippet('pattern of a course', `pattern \${1:Wing} is supply course {\n  shutoff \${2:V1}    normally open\n  hose \${3:S1}\n  $0\n}`, 'a whole course that is used more than once'),
        snippet('survey', `survey \${1:Spring26} on \${2:2026-03-02} by "\${3:surveyor}" {\n  $0\n}`, 'what was found'),
        snippet('refit', `refit \${1:Haul26} "\${2:what for}" {\n  $0\n}`, 'what is proposed'),
        snippet('waive', `waive \${1:HOSE-AGE} until \${2:2027-12-31} by "\${3:owner}" because "\${4:inspected}"`, 'a rule set aside until a day'),
        snippet('tend', `tend {\n  renew \${1:${filter}} element   every \${2:250 h or 12 months}\n}`, 'what is done how often'),
        snippet('log', `log \${1:2026} {\n  \${2:2026-01-31}   \${3:${consumer}} \${4:100 h}   $0\n}`, 'what was done'),
        snippet('bleed', `bleed \${1:${consumer}} after opening \${2:${filter}} {\n  $0\n}`, 'a bleed sequence of your own'),
        snippet('procedure', `procedure renew \${1:${filter}} element "\${2:Change the element}"   starts \${3:${normal}}   ends \${4:${normal}} {\n  stop \${5:${consumer}} key out\n  $0\n}`, 'a job step by step'),
    ];
}

/** The first ends of each kind that no course uses yet; where all are used, the first. */
function endsOf(boat: Boat, side: 'from' | 'to'): { readonly tank: string; readonly consumer: string } {
    const used = new Set(boat.joints.flatMap((joint) => [joint.from, joint.to]));
    const fittings = boat.tanks.flatMap((tank) => tank.fittings).filter(({ kind }) => kind === (side === 'from' ? 'pickup' : 'drop')).map(({ id }) => id);
    const consumers = boat.consumers.map(({ id }) => id);
    const point = side === 'from' ? 'out' : 'in';
    return {
        tank: fittings.find((id) => !used.has(id)) ?? fittings[0] ?? (side === 'from' ? 'T1.P1' : 'T1.R1'),
        consumer: consumers.find((id) => !used.has(`${id}:${point}`)) ?? consumers[0] ?? 'E1',
    };
}
