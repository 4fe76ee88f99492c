/** Boats that nobody would write, and that must be drawn all the same: one part, hundreds, none joined, names without end and names that try to be something else. */
type Texts = Readonly<Record<string, string>>;

/** A boat with so many parts: every third engine has its own tank, the others hang on manifolds of four tees. */
export function manyParts(parts: number): Texts {
    const engines = Math.max(1, Math.round((parts - 2) / 13));
    const all = Array.from({ length: engines }, (_, i) => i + 1);
    const feed = (n: number): string => `  shutoff V${n}   normally open
  hose S${n}A     bore 8 mm
  primer PR${n}
  filter F${n}A primary { separates water   passes 10 um   bleed BS${n}A }
  hose S${n}B     bore 8 mm
  gauge G${n}     vacuum
  lift pump LP${n}
  filter F${n}B final { passes 5 um   bleed BS${n}B }
  tube S${n}C     bore 6 mm
}
`;
    const own = all.filter((n) => n % 3 === 0);
    const shared = all.filter((n) => n % 3 !== 0);
    // The manifold ends in the line of the last that hangs on it.
    const last = shared.at(-1)!;
    return { 'many.orlop': `vessel Manifoldwake
tank T1 { pickup P1   ${shared.map((n) => `drop R${n}`).join('   ')}   vent   fill }
${own.map((n) => `tank T${n} { pickup P1   drop R${n}   vent   fill }`).join('\n')}
${all.map((n) => `engine E${n} { bleed BS${n}E }`).join('\n')}
supply course Main from T1.P1 to E${last} {
  shutoff VM   normally open
  ${shared.map((n) => `tee M${n}`).join('   ')}
${feed(last)}${all.filter((n) => n !== last).map((n) => `supply course Feed${n} from ${n % 3 === 0 ? `T${n}.P1` : `M${n}`} to E${n} {\n${feed(n)}`).join('')}
${all.map((n) => `return course Back${n} from E${n} to T${n % 3 === 0 ? n : 1}.R${n} { hose B${n}   check CV${n} }\n`).join('')}line-up RUN run is normal
` };
}

const LONG = 'Supply shutoff of the port tank beneath the cabin sole, aft of the second bulkhead'.slice(0, 80);
const ARABIC = 'صمام إغلاق الوقود الرئيسي للخزان الأيسر تحت أرضية المقصورة بجانب الحاجز الثاني هنا'.slice(0, 80);
const HAN = '左舷燃油柜主关断阀位于舱底板下方靠近第二道水密舱壁的后侧'.repeat(3).slice(0, 80);
const EMOJI = [...'🚤⚓️🛢️🔧'.repeat(20)].slice(0, 80).join('');
const HOSTILE = ['<script>globalThis.seized=1</script>', ']]>', '\'><svg onload=globalThis.seized=1>', '\u202eright to left\u202c \u2067open\u2069', '&lt;b&gt; &#x41; &amp;'];

const named = (title: string): string => `vessel Namewake "${title}" {
  heights from "${title}"
  space Bay "${title}" machinery
  space Hold
}
tank T1 "${title}" in Hold { pickup P1   drop R1   vent "${title}"   fill }
engine E1 "${title}" in Bay { bleed BS1 "${title}" }
selector SV1 "${title}" { ports port, stbd, out   position PORT joins port, out   position STBD joins stbd, out }
supply course Feed from T1.P1 to SV1.port "${title}" { shutoff V1 "${title}"   normally open   label "${title}"   hose }
supply course On from SV1.out to E1 { filter F1 "${title}" primary { bleed BS2 "${title}" } }
return course Back from E1 to T1.R1 { hose   check CV1 "${title}" }
line-up RUN run is normal { SV1 PORT }
`;

const TAG = `V${'alve'.repeat(20)}`.slice(0, 80);

export const ODD_BOATS: readonly { readonly name: string; readonly texts: Texts; readonly says?: string }[] = [
    { name: 'nothing', texts: { 'a.orlop': '' } },
    { name: 'a vessel alone', texts: { 'a.orlop': 'vessel Emptywake\n' } },
    { name: 'one tank', texts: { 'a.orlop': 'vessel Lonewake\ntank T1\n' } },
    { name: 'one part', texts: { 'a.orlop': 'vessel Lonewake\nselector SV1 { ports port, out   position PORT joins port, out }\n' } },
    { name: 'an engine that nothing leads to', texts: { 'a.orlop': 'vessel Lonewake\nengine E1 { bleed BS1 }\ntank T1 { pickup P1 }\ntee J1\n' } },
    { name: 'lines that lead nowhere', texts: { 'a.orlop': 'vessel Loosewake\ntank T1 { pickup P1   drop R1 }\nengine E1\nsupply course A from T1.P1 to E9 { shutoff V1   filter F1 primary }\nsupply course B from T9.P1 to E1 { hose   shutoff V2 }\nreturn course C from E9 to T9.R1 { check CV1   hose }\n' } },
    { name: 'a line into itself', texts: { 'a.orlop': 'vessel Ringwake\ntee J1\nsupply course A from J1 to J1 { shutoff V1 }\nsupply course B from J1 to J1\n' } },
    { name: 'a check and a pump turned about, a solenoid, drains', texts: { 'a.orlop': 'vessel Turnwake\ntank T1 { pickup P1   drop R1 }\nengine E1\nsupply course A from T1.P1 to E1 { shutoff V1 solenoid   check CV1 reversed   hose   filter F1 primary { drain at 100 mm }   electric pump EP1   strainer ST1   shutoff V2 normally shut   shutoff V3 locked open }\nreturn course B from E1 to T1.R1 { check CV2 reversed   hose }\n' } },
    { name: '300 parts', texts: manyParts(300) },
    { name: 'tags of 80 letters', texts: { 'a.orlop': `vessel Tagwake\ntank ${TAG.replace('V', 'T')} { pickup P1   drop ${TAG.replace('V', 'R')} }\nengine E1 { bleed ${TAG.replace('V', 'B')} }\nsupply course A from ${TAG.replace('V', 'T')}.P1 to E1 { shutoff ${TAG}   hose   filter F1 primary { bleed ${TAG.replace('V', 'C')}   bleed BS2 } }\nreturn course B from E1 to ${TAG.replace('V', 'T')}.${TAG.replace('V', 'R')}\n` } },
    ...([['Latin', LONG], ['Arabic', ARABIC], ['Han', HAN], ['emoji', EMOJI]] as const).map(([what, title]) => ({ name: `names in ${what}`, texts: { 'a.orlop': named(title) }, says: title })),
    ...HOSTILE.map((title, i) => ({ name: `hostile name ${i + 1}`, texts: { 'a.orlop': named(title) }, says: title })),
];
