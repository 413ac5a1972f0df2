/**
 * @file What goes over the wire, as types. Every text comes ready for the chosen units: the browser rounds nothing.
 *
 * @typedef {"holds"|"tight"|"fails"|"unknown"|"does not apply"} Verdict
 *
 * @typedef {object} View      Metres of the house onto pixels of the drawing as the server laid it out.
 * @property {number} scale    pixels for one metre
 * @property {number} x0       pixel of x = 0
 * @property {number} z0       pixel of z = 0; z grows upwards, pixels downwards
 * @property {number} width
 * @property {number} height
 *
 * @typedef {object} Scene
 * @property {number} revision
 * @property {number} [seq]          of the drag it answers
 * @property {boolean} provisional
 * @property {string} vault
 * @property {string} stage
 * @property {string} case
 * @property {"section"|"plan"|"elevation"} [shows]
 * @property {string} svg
 * @property {View} view
 * @property {{verdict: Verdict, text: string, next: string}} sentence
 * @property {number} [stale_from]   revision that these figures are from
 * @property {{at: string, name: string, kind: string, ring: number[][]}[]} [places]  parts that can be chosen by pointing
 *
 * @typedef {object} Handle            Something that may be dragged or typed; every value is a text with its unit.
 * @property {string} name
 * @property {string} key             place in the house file
 * @property {string} label
 * @property {number} x               metres right of the axis
 * @property {number} z               metres above the finished floor
 * @property {"across"|"up"|"both"|"along"} free
 * @property {number[]} [along]       direction in which the value grows
 * @property {number} per             change of the value for a metre along it; 0 where it is a slope
 * @property {string} value           as it stands in the file
 * @property {string} text            as it is read in the chosen units
 * @property {string} low
 * @property {string} high
 * @property {string} [because]
 * @property {string} snap
 * @property {string} fine
 * @property {string} page
 * @property {Record<string, number|null>} [reach]  metres of the hand for one step
 * @property {string} [source]
 * @property {boolean|string} [fixed]
 * @property {Handle} [also]          the value of the other direction, where two stand at one place
 *
 * @typedef {object} Stop
 * @property {string} stage
 * @property {string} name
 * @property {string} kind
 * @property {number|null} ratio
 * @property {string} [ratio_text]
 * @property {Verdict} verdict
 * @property {number|null} [left]     level of the fill (m)
 * @property {number|null} [right]
 * @property {unknown[]} [stop]       stop marks of this stage
 *
 * @typedef {object} Revision
 * @property {number} number
 * @property {string} label
 * @property {boolean} kept
 * @property {string|null} undoes
 * @property {string|null} redoes
 * @property {boolean} recovered
 * @property {boolean} changed_on_disk
 * @property {Mistake[]} mistakes
 * @property {boolean} readonly
 *
 * @typedef {{place: string, key: string, line: number|null, value: string, says: string}} Mistake
 *
 * @typedef {object} Finding
 * @property {string} id
 * @property {string} rule
 * @property {string} title
 * @property {string} part
 * @property {string|null} stage
 * @property {string|null} case
 * @property {string|null} [place]
 * @property {Verdict} verdict
 * @property {string} text
 * @property {number|null} ratio
 * @property {string} advice
 * @property {{vault: string, x: number, z: number}} [spot]
 * @property {any[]} working
 * @property {any[]} cites
 * @property {boolean} mendable
 *
 * @typedef {object} Known
 * @property {Revision} revision
 * @property {Scene} scene
 * @property {{vault: string, list: Handle[]}} handles
 * @property {any} axes
 * @property {any} found
 * @property {Record<string, any>} mends
 * @property {any} parts
 * @property {any} job
 * @property {"joining"|"open"|"lost"} line
 * @property {string|null} opened        id of the finding that is open
 * @property {"findings"|"questions"|"parts"|string} leaf
 * @property {boolean} [atStage]         somebody looks at one stage, not at the whole house
 * @property {any} [held]                what the hand holds
 * @property {any} [made]                what was made last
 * @property {any} [running]             progress of the full run
 * @property {any} [mending]             id of the finding for which changes are looked for
 * @property {any[]} [waiting]           changes of before the line broke
 * @property {number|null} [week]        of the year, whose ground is drawn
 * @property {string|null} [part]        place of the chosen part
 * @property {Record<string, any>} [evidence]  what checks the equations, by rule
 * @property {boolean} [readonly]
 * @property {any} [wrong]               the last mistake that was refused
 * @property {string} light
 * @property {string} units
 */

/** Messages that change the house: they are never lost and never sent twice. */
export const CHANGES = new Set(["edit", "text", "part", "remedy", "undo", "redo", "keep", "take"]);

/** Below this width steppers take the place of handles (px). */
export const NARROW = 700;
