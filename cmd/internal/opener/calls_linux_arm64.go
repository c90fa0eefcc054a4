package opener

// forkCalls is empty: this machine has only clone.
var forkCalls []uint32
