"""Sentences that answer no question: everyday talk, put together from pieces, for what a judge must not take for an answer.

Those of join.py (ODD) and the test sentences below are not among what this makes; so a judge that learned from these can be tried on those.
"""
import random

WHO = '''I|My sister|My brother|My cousin|My mum|My dad|Our neighbour|The lady next door|My best friend|Our dog|The cat|My uncle|Grandad|Nan|The bus driver|Our teacher|The baby|My
aunt|The man at the shop|A boy in my street|The twins|My parents|Our team|The whole family|Some of us|Everyone at home|The choir|The girls from the club|My little nephew|The postman'''.replace('\n', ' ').split('|')
DID = '''went to the park|watched a film|made pancakes|lost the keys|bought a new coat|played cards|fell asleep on the sofa|missed the train|cleaned the kitchen|painted the fence|sang in the car
|ate too many biscuits|got a new phone|broke a plate|walked along the beach|learned a song|found ten pounds|baked a cake|had a haircut|went swimming|fixed the bike|forgot the sandwiches|told a joke
|stayed in bed all day|read a comic|moved to another flat|danced at the wedding|phoned the shop|planted roses|carried the bags|drew a dragon|knitted a scarf|hid under the stairs|ordered pizza
|won a raffle|borrowed an umbrella|packed the suitcase|built a sandcastle|took the wrong bus|spilled the juice|joined the chess club|burned the toast|chased a ball|wore odd socks'''.replace('\n', '').split('|')
WILL = '''go camping|visit Gran|start piano lessons|buy a tent|get a puppy|move house|cook dinner|see the parade|join the band|sell the car|stay up late|bring crisps|wear the blue dress|meet at the station
|learn to drive|play outside|have a party|queue for ages|be late again|win the cup|go skating|tidy the loft'''.replace('\n', '').split('|')
WHEN = '''yesterday|last night|on Saturday|this morning|after lunch|in the holidays|at the weekend|two days ago|on the way home|before tea|in June|last winter|all afternoon|every Friday|at half past six|on my birthday|
during the break|the other day'''.replace('\n', '').split('|')
WHY = '''because it was raining|because the shop was shut|because nobody was home|since the lift was broken|as we were hungry|because of the traffic|because it was on offer|so we laughed a lot|so there was nothing left
|so Mum was cross|because the alarm did not ring|which made everyone happy|because I had no money left|since it was a holiday|so I was tired|because the music was loud|and that is why we were late'''.replace('\n', '').split('|')
STATE = '''The sofa is more comfortable than the chairs.|Blue is my favourite colour.|Pizza tastes better than soup.|The queue was longer than last time.|My shoes are too small.|There are three cafés in our street.
|The new goalkeeper is the best we have had.|Trains are dearer than buses.|Our flat has two bedrooms and a balcony.|The concert was sold out.|It costs four pounds to get in.|The lights in the hall were green and red.
|Nobody likes the new uniform.|The story is about a pirate and his parrot.|Football is on at the same time as the quiz.|Her hat looked like a cake.|I prefer tea to coffee.|The playground is next to the car park.
|The chips were cold and the drinks were warm.|My bag weighs more than yours.|The tickets went up by two pounds.|Sundays are boring.|A scarf is warmer than a tie.|He is taller than his brother now.'''.replace('\n', '').split('|')


def sentence(r):
    """One sentence, or two, by a random.Random."""
    u = r.random(); who = r.choice(WHO)
    if u < .12: s = r.choice(STATE)
    elif u < .30: s = f"{who} {'am' if who == 'I' else 'are' if who in ('The twins', 'My parents', 'Some of us', 'The girls from the club') else 'is'} going to {r.choice(WILL)} {r.choice(('tomorrow', 'next week', 'soon', 'in the summer', 'on Monday'))}."
    elif u < .38: s = f"If it is sunny {r.choice(('tomorrow', 'on Sunday', 'later'))}, {who[0].lower() + who[1:] if who != 'I' else who} will {r.choice(WILL)}."
    else:
        s = f"{who} {r.choice(DID)}"
        if r.random() < .6: s += ' ' + r.choice(WHEN)
        if r.random() < .45: s += (', ' if r.random() < .2 else ' ') + r.choice(WHY)
        elif r.random() < .2: s += f" and {r.choice(DID)}"
        s += '.'
    return s + ' ' + sentence(r) if r.random() < .15 else s


if __name__ == '__main__':
    r = random.Random(1)
    for _ in range(20): print(sentence(r))
