/** The line of words above the drawing: what it is a drawing of. */
import type { PictureResult } from '../../server/protocol';
import type { Question } from '../messages';
import { element } from './host';

const select = (id: string): HTMLSelectElement => element<HTMLSelectElement>(id);
const input = (id: string): HTMLInputElement => element<HTMLInputElement>(id);

export class Chooser {
    private step = 1;
    private steps: number | undefined;

    constructor(private question: Question, private readonly ask: (question: Question) => void) {
        select('kind').value = question.kind;
        if (question.level !== undefined) input('level').value = String(question.level);
        if (question.heel !== undefined) {
            input('heel').value = String(Math.abs(question.heel));
            select('side').value = question.heel < 0 ? '-1' : '1';
        }
        this.step = question.step ?? 1;
        const form = element<HTMLFormElement>('choose');
        form.addEventListener('submit', (event) => event.preventDefault());
        for (const id of ['kind', 'lineUp', 'level', 'heel', 'side']) element(id).addEventListener('change', () => this.changed());
        select('show').addEventListener('change', () => { this.step = 1; this.changed(); });
        element('back').addEventListener('click', () => this.walk(-1));
        element('on').addEventListener('click', () => this.walk(1));
        element('first').addEventListener('keydown', (event) => {
            if (this.steps === undefined || (event.key !== 'PageUp' && event.key !== 'PageDown')) return;
            event.preventDefault();
            this.walk(event.key === 'PageUp' ? -1 : 1);
        });
        this.dress();
    }

    get now(): Question {
        return this.question;
    }

    /** What can be chosen now. A choice that is no longer there stays in sight, with what the server says of it. */
    offer({ choices, refused, stale, said }: PictureResult): void {
        element('boat').textContent = choices.boat;
        options(select('lineUp'), choices.lineUps.map((id) => [id, id]), this.question.lineUp ?? select('lineUp').value);
        options(select('show'), [['', 'nothing'], ...choices.shows.map(({ show, title }) => [show, title] as const)], this.question.show ?? '');
        this.steps = choices.steps;
        if (choices.steps !== undefined) this.step = Math.min(this.step, choices.steps);
        const told = [stale, refused].filter((sentence) => sentence !== undefined).join(' ');
        tell('told', told);
        tell('said', said?.join(' ') ?? '');
        this.dress();
    }

    /** Another boat: what was chosen of the one before is not there. */
    forget(): void {
        const { kind, level, heel } = this.question;
        this.question = { kind, ...(level !== undefined && { level }), ...(heel !== undefined && { heel }) };
        this.step = 1;
        select('lineUp').replaceChildren();
    }

    private walk(by: number): void {
        const to = Math.max(1, Math.min(this.steps ?? 1, this.step + by));
        if (to === this.step) return;
        this.step = to;
        this.changed();
    }

    private changed(): void {
        const kind = select('kind').value === 'elevation' ? 'elevation' : 'schematic';
        const [level, heel] = [numberIn('level'), numberIn('heel')];
        const show = select('show').value;
        this.question = {
            kind, lineUp: select('lineUp').value,
            ...(kind === 'elevation' && level !== undefined && { level }), ...(kind === 'elevation' && heel !== undefined && { heel: heel * Number(select('side').value) }),
            ...(show !== '' && { show, step: this.step }),
        };
        this.dress();
        this.ask(this.question);
    }

    private dress(): void {
        element('lie').hidden = this.question.kind !== 'elevation';
        element('steps').hidden = this.steps === undefined || this.question.show === undefined;
        element('step').textContent = `step ${this.step} of ${this.steps ?? 1}`;
        element<HTMLButtonElement>('back').disabled = this.step <= 1;
        element<HTMLButtonElement>('on').disabled = this.step >= (this.steps ?? 1);
    }
}

/** A screen reader says anew whatever is set anew. */
export function tell(id: 'told' | 'said', words: string): void {
    if (element(id).textContent !== words) element(id).textContent = words;
}

const numberIn = (id: string): number | undefined => (input(id).value === '' || Number.isNaN(input(id).valueAsNumber) ? undefined : input(id).valueAsNumber);

function options(list: HTMLSelectElement, offered: readonly (readonly [value: string, words: string])[], chosen: string): void {
    const all = chosen === '' || offered.some(([value]) => value === chosen) ? offered : [...offered, [chosen, chosen] as const];
    const isSame = list.options.length === all.length && all.every(([value, words], i) => list.options[i]!.value === value && list.options[i]!.text === words);
    if (!isSame) list.replaceChildren(...all.map(([value, words]) => new Option(words, value)));
    if (all.some(([value]) => value === chosen)) list.value = chosen;
}
