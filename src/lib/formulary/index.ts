export { actives, groups, targets, type Active, type Group, type Target } from './vocabulary.ts';
