/** Steps of a plan with their section and remarks, told shortly. */
import type { ServiceStep } from '../../model/step';
import type { PlannedServiceStep, Section } from './plan';
import type { Remark } from './remarks';
import type { Told } from './told';

export const planned = (section: Section, step: ServiceStep, ...remarks: readonly (Remark | undefined)[]): PlannedServiceStep =>
    ({ step, section, remarks: remarks.filter((remark): remark is Remark => remark !== undefined) });

export const remarked = (step: PlannedServiceStep, ...remarks: readonly Remark[]): PlannedServiceStep => ({ ...step, remarks: [...step.remarks, ...remarks] });
/** A step that is told in other words than its own. */
export const told = (section: Section, step: ServiceStep, words: Told, ...remarks: readonly (Remark | undefined)[]): PlannedServiceStep => ({ ...planned(section, step, ...remarks), told: words });
