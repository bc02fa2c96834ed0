"""Sound in, words with doubt out: recordings, microphones and the engines that hear them."""
