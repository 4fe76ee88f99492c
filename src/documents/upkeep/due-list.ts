/** What is due, in order of date, in words. */
import type { Due } from '../../analysis/upkeep/due';
import { daysBetween } from '../../analysis/upkeep/hours';
import type { Job } from '../../model/boat';
import { hours, wrap } from '../figures';
import { cell } from '../findings/report';

const WIDTH = 80;
const STANDING = 'Intervals are those written in the boat\'s text, projected at the rate of its log. The maker\'s book comes first.';

export const jobWords = (job: Job): string => [job.verb, job.part, job.piece].filter((word) => word !== undefined && word !== '').join(' ');

export function intervalWords({ interval }: Due): string {
    if (interval.everyStart) return 'every start';
    const parts = [interval.hours === undefined ? '' : hours(interval.hours), interval.months === undefined ? '' : interval.months >= 24 && interval.months % 12 === 0 ? `${interval.months / 12} years` : `${interval.months} ${interval.months === 1 ? 'month' : 'months'}`, interval.days === undefined ? '' : `${interval.days} days`];
    return `every ${parts.filter((part) => part !== '').join(' or ')}`;
}

/** overdue by 12 days; due in 34 days, soon */
export function stateWords(due: Due, today: string): string {
    if (due.state === 'each time') return 'every start';
    if (due.due === undefined) return `cannot say: ${due.because}`;
    const days = daysBetween(today, due.due);
    const away = days < 0 ? `overdue by ${count(-days)}` : days === 0 ? 'due today' : `due in ${count(days)}`;
    return away + (due.state === 'soon' ? ', soon' : '');
}

const count = (days: number): string => `${days} ${days === 1 ? 'day' : 'days'}`;

function why(due: Due): string {
    const parts = [intervalWords(due)];
    if (due.by === 'hours') parts.push(`by hours, at ${Math.round(due.atHours!)} h of ${due.engine}`);
    else if (due.by !== undefined) parts.push('by the calendar');
    if (due.last) parts.push(`last ${due.last.date}${due.last.hours === undefined ? '' : ` at ${Math.round(due.last.hours)} h`}`);
    if (due.due !== undefined && due.because !== undefined) parts.push(due.because);
    return parts.join('; ');
}

const shared = (due: Due): string | undefined => due.with && `do it together with ${jobWords(due.with)}: one isolation and one bleed serve both`;

export function dueText(boat: string, plan: readonly Due[], today: string): string {
    const lines = [`${boat}: what is due, as of ${today}`, ''];
    if (plan.length === 0) lines.push(wrap('No intervals are written. Write a `tend` table, or let the editor write the usual one.', WIDTH), '');
    const dated = plan.filter((due) => due.due !== undefined);
    const open = plan.filter((due) => due.state === 'unknown');
    const always = plan.filter((due) => due.state === 'each time');
    const width = Math.max(0, ...plan.map((due) => jobWords(due.job).length));
    for (const due of dated) {
        lines.push(`${due.due}  ${jobWords(due.job).padEnd(width)}  ${stateWords(due, today)}`, wrap(why(due), WIDTH, '            '));
        const together = shared(due);
        if (together !== undefined) lines.push(wrap(together, WIDTH, '            '));
    }
    if (dated.length > 0) lines.push('');
    // One reason, one heading: most often that the log does not say when a job was last done.
    for (const because of new Set(open.map((due) => due.because!))) {
        lines.push(wrap(`Cannot say when, since ${because}:`, WIDTH));
        for (const due of open.filter((other) => other.because === because)) lines.push(`  ${jobWords(due.job).padEnd(width)}  ${intervalWords(due)}`);
        lines.push('');
    }
    if (always.length > 0) lines.push('At every start:', ...always.map((due) => `  ${jobWords(due.job)}`), '');
    lines.push(wrap(STANDING, WIDTH));
    return `${lines.join('\n')}\n`;
}

export function duePage(boat: string, plan: readonly Due[], today: string): string {
    const lines = [`# What is due: ${cell(boat)}`, '', `As of ${today}.`, '', '| due | job | state | why |', '| --- | --- | --- | --- |'];
    for (const due of plan) lines.push(`| ${due.due ?? ''} | ${cell(jobWords(due.job))} | ${cell(stateWords(due, today))} | ${cell([why(due), shared(due)].filter((part) => part !== undefined).join('; '))} |`);
    return [...lines, '', STANDING, ''].join('\n');
}

export function dueData(boat: string, plan: readonly Due[], today: string): unknown {
    return {
        boat, today, standing: STANDING,
        jobs: plan.map((due) => ({ ...due.job, every: intervalWords(due), state: due.state, ...(due.due !== undefined && { due: due.due }), ...(due.by !== undefined && { by: due.by }), ...(due.last && { last: due.last }), ...(due.because !== undefined && { because: due.because }), ...(due.with && { with: due.with }) })),
    };
}
