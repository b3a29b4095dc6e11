/** Everyday words that are no command: what the ears must learn to leave alone. */
export const OTHER_WORDS = [
  'good morning', 'see you later', 'hot coffee', 'two waffles', 'small cup', 'where is it', 'on the shelf', 'thank you',
  'no problem', 'right behind you', 'coming through', 'order up', 'table seven', 'one more please', 'close the door',
  'turn it down', 'what time', 'almost ready', 'over there', 'bring me that', 'wipe the counter', 'more napkins',
  'it is raining', 'call him back', 'the blue one', 'careful now', 'big spoon', 'vanilla and lemon', 'take your break',
  'who is next door', 'hello', 'water', 'seventeen', 'tomorrow', 'chocolate', 'delivery', 'maybe', 'sandwich', 'window',
  'understand', 'money', 'sugar', 'people', 'open', 'hurry', 'kitchen', 'sorry', 'really', 'number', 'yesterday',
  'they went home', 'all of them', 'go to the back', 'hold the door', 'carry that box', 'say hello', 'done with school',
  'next week', 'help yourself', 'pass the salt'
] as const
