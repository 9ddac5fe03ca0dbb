// One class for each error code of the C API.

export class SiropError extends Error {
    static code = -1;

    /** @param {string} message @param {number} code the C API's status, below 0 */
    constructor(message, code = new.target.code) {
        super(message);
        this.name = new.target.name;
        this.code = code;
    }
}

export class GeneralError extends SiropError {}

export class OutOfRangeError extends SiropError {
    static code = -2;
}

export class UnknownNameError extends SiropError {
    static code = -3;
}

export class BufferTooSmallError extends SiropError {
    static code = -4;
}

/** The batch or the question is refused; `place` says which of its keys, `reason` why. */
export class BatchRefusedError extends SiropError {
    static code = -5;

    constructor(message) {
        super(message);
        const cut = message.indexOf(": ");
        this.place = message.slice(0, Math.max(cut, 0));
        this.reason = cut < 0 ? message : message.slice(cut + 2);
    }
}

export class MissingArgumentError extends SiropError {
    static code = -6;
}

export class OutOfMemoryError extends SiropError {
    static code = -7;
}

export class ImpossibleError extends SiropError {
    static code = -8;
}

const byCode = new Map([OutOfRangeError, UnknownNameError, BufferTooSmallError, BatchRefusedError,
    MissingArgumentError, OutOfMemoryError, ImpossibleError].map((one) => [one.code, one]));

/** The error of a code; one that is not known is a general failure and keeps its code. */
export function errorOf(code, message) {
    return new (byCode.get(code) ?? GeneralError)(message, code);
}
