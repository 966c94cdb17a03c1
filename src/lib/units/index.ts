export { read, unreadable, type Problem, type Read } from './problem.ts';
