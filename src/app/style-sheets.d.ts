/**
 * Style sheets are imported for their effect alone; Next puts them into the page.
 */
declare module '*.css';
