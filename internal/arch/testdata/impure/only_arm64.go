package impure // bad: machine

const machineWord = 64
