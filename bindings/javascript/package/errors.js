// One class for each error code of the C API.

export class SiropError extends Error {
    /** @param {string} message @param {number} code the C API's status, below 0 */
    constructor(message, code = -1) {
        super(message);
        this.name = new.target.name;
        this.code = code;
    }
}

export class GeneralError extends SiropError {
    constructor(message, code = -1) {
        super(message, code);
    }
}

export class OutOfRangeError extends SiropError {
    constructor(message) {
        super(message, -2);
    }
}

export class UnknownNameError extends SiropError {
    constructor(message) {
        super(message, -3);
    }
}

export class BufferTooSmallError extends SiropError {
    constructor(message) {
        super(message, -4);
    }
}

/** The batch or the question is refused; `place` says which of its keys, `reason` why. */
export class BatchRefusedError extends SiropError {
    constructor(message) {
        super(message, -5);
        const cut = message.indexOf(": ");
        this.place = message.slice(0, Math.max(cut, 0));
        this.reason = cut < 0 ? message : message.slice(cut + 2);
    }
}

export class MissingArgumentError extends SiropError {
    constructor(message) {
        super(message, -6);
    }
}

export class OutOfMemoryError extends SiropError {
    constructor(message) {
        super(message, -7);
    }
}

export class ImpossibleError extends SiropError {
    constructor(message) {
        super(message, -8);
    }
}

const byCode = new Map([
    [-2, OutOfRangeError],
    [-3, UnknownNameError],
    [-4, BufferTooSmallError],
    [-5, BatchRefusedError],
    [-6, MissingArgumentError],
    [-7, OutOfMemoryError],
    [-8, ImpossibleError],
]);

/** The error of a code; one that is not known is a general failure and keeps its code. */
export function errorOf(code, message) {
    const Class = byCode.get(code);
    return Class === undefined ? new GeneralError(message, code) : new Class(message);
}
